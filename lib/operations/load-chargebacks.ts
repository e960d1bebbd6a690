import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type ChargeableVerdict, findChargeback, type KeptChargeback, listChargeable, listChargebacks, listSuppliers, type Made } from "@/lib/data/chargebacks";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { loadSettings } from "@/lib/data/settings";
import { type ChargebackTotals, chargebackTotals, type ChargedAmounts } from "@/lib/domain/claims/chargeback";
import { toMinor } from "@/lib/domain/claims/money";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { refuse, type Refusal } from "./refusal";

export interface Chargeable extends ChargeableVerdict, ChargedAmounts {
  causeName: string;
}

export interface SupplierWithVerdicts {
  id: string;
  name: string;
  verdicts: readonly Chargeable[];
}

export interface ChargebackOnSheet extends KeptChargeback {
  totals: ChargebackTotals;
  isOverdue: boolean;
}

export interface ChargebacksSheet {
  ok: true;
  /** Suppliers to whom something could be charged. */
  open: readonly SupplierWithVerdicts[];
  /** What nobody has said the maker of, though verdicts lay defects to it, the most first. */
  unmade: readonly (Made & { verdicts: number })[];
  chargebacks: readonly ChargebackOnSheet[];
  /** Without one nothing can be charged, whatever was confirmed. */
  hasSuppliers: boolean;
  currency: string;
  timeZone: string;
}

/** What could be charged back to each supplier, and every chargeback so far. */
export async function loadChargebacks(actor: StaffActor, now: Date = new Date()): Promise<ChargebacksSheet | Refusal> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const { currency, timeZone, benchMinute } = await loadSettings();
  const [verdicts, suppliers, chargebacks, causes] = await Promise.all([listChargeable(currency), listSuppliers(), listChargebacks(), loadCausesEverInForce()]);
  const open = suppliers.map(({ id, name }) => ({
    id,
    name,
    verdicts: verdicts.filter(({ made }) => made?.supplierId === id).map((verdict): Chargeable => ({ ...verdict, benchMinor: toMinor(verdict.benchMinutes * benchMinute, currency), causeName: causes.find(({ code }) => code === verdict.cause)?.name ?? verdict.cause })),
  }));
  return { ok: true, open: open.filter((supplier) => supplier.verdicts.length > 0), unmade: unmadeOf(verdicts), chargebacks: chargebacks.map((chargeback) => onSheet(chargeback, now)), hasSuppliers: suppliers.length > 0, currency, timeZone };
}

function unmadeOf(verdicts: readonly ChargeableVerdict[]): ChargebacksSheet["unmade"] {
  const unmade = new Map<string, Made & { verdicts: number }>();
  for (const { made } of verdicts) if (made?.supplierId === null) unmade.set(made.id, { ...made, verdicts: (unmade.get(made.id)?.verdicts ?? 0) + 1 });
  return [...unmade.values()].sort((a, b) => b.verdicts - a.verdicts || a.code.localeCompare(b.code));
}

export interface LoadedChargeback {
  ok: true;
  chargeback: ChargebackOnSheet;
  causeNames: ReadonlyMap<CauseCode, string>;
  timeZone: string;
}

/** One chargeback by its number. */
export async function loadChargeback(actor: StaffActor, number: number, now: Date = new Date()): Promise<LoadedChargeback | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const [chargeback, causes, { timeZone }] = await Promise.all([findChargeback(number), loadCausesEverInForce(), loadSettings()]);
  if (!chargeback) return { ok: false, reason: "not-found" };
  return { ok: true, chargeback: onSheet(chargeback, now), causeNames: new Map(causes.map(({ code, name }) => [code, name])), timeZone };
}

/** Overdue from the day after the last one on which an answer was due. */
function onSheet(chargeback: KeptChargeback, now: Date): ChargebackOnSheet {
  const due = chargeback.answerDueOn?.getTime() ?? Number.POSITIVE_INFINITY;
  return { ...chargeback, totals: chargebackTotals(chargeback.lines), isOverdue: chargeback.state === "sent" && now.getTime() >= due + 86_400_000 };
}
