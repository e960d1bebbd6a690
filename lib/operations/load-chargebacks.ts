import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { type ChargeableVerdict, countChargeable, countClosedChargebacks, findChargeback, type KeptChargeback, listChargeable, listChargebacks, listSuppliers, listUnmade, type Made } from "@/lib/data/chargebacks";
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
  /** How many there are in all. */
  total: number;
  /** The oldest of them. */
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
  /** All that are open, and the last that were closed. */
  chargebacks: readonly ChargebackOnSheet[];
  /** Closed ones that are older than those. */
  older: number;
  /** Without one nothing can be charged, whatever was confirmed. */
  hasSuppliers: boolean;
  currency: string;
  timeZone: string;
}

/** Verdicts of one supplier on the sheet; the others come up as these are charged. */
const MOST_VERDICTS = 1_000;
const MOST_CLOSED = 100;

/** What could be charged back to each supplier, and the chargebacks so far. */
export async function loadChargebacks(actor: StaffActor, now: Date = new Date()): Promise<ChargebacksSheet | Refusal> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const { currency, timeZone, benchMinute } = await loadSettings();
  const [suppliers, unmade, chargebacks, closed, causes] = await Promise.all([listSuppliers(), listUnmade(), listChargebacks(MOST_CLOSED), countClosedChargebacks(), loadCausesEverInForce()]);
  const open: SupplierWithVerdicts[] = [];
  for (const { id, name } of suppliers) {
    const verdicts = await listChargeable(id, currency, { most: MOST_VERDICTS });
    if (verdicts.length === 0) continue;
    open.push({
      id,
      name,
      total: verdicts.length < MOST_VERDICTS ? verdicts.length : await countChargeable(id),
      verdicts: verdicts.map((verdict) => ({ ...verdict, benchMinor: toMinor(verdict.benchMinutes * benchMinute, currency), causeName: causes.find(({ code }) => code === verdict.cause)?.name ?? verdict.cause })),
    });
  }
  return { ok: true, open, unmade, chargebacks: chargebacks.map((chargeback) => onSheet(chargeback, now)), older: Math.max(0, closed - MOST_CLOSED), hasSuppliers: suppliers.length > 0, currency, timeZone };
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
