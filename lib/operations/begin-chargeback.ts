import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { insertChargeback, listChargeable } from "@/lib/data/chargebacks";
import { inTransaction, isUniqueViolation } from "@/lib/data/client";
import { loadSettings } from "@/lib/data/settings";
import { toMinor } from "@/lib/domain/claims/money";
import type { beginSchema } from "@/lib/inputs/chargeback";
import { auditActor, refuse, type Refusal } from "./refusal";

export type BeginChargebackResult =
  | { ok: true; number: number; lines: number }
  | Refusal
  /** Somebody else charged one of them meanwhile. */
  | { ok: false; reason: "charged-meanwhile" }
  /** None of them can be charged to this supplier. */
  | { ok: false; reason: "nothing-to-charge" };

/** Puts verdicts that are not yet charged into a new draft: those named, and all of the batches named. */
export async function beginChargeback(actor: StaffActor, { supplierId, verdicts, batches }: z.output<typeof beginSchema>, now: Date = new Date()): Promise<BeginChargebackResult> {
  const refused = await refuse(actor, "write to a supplier");
  if (refused) return refused;
  const { currency, benchMinute } = await loadSettings();
  try {
    return await inTransaction(async (db) => {
      const chargeable = await listChargeable(supplierId, currency, { verdicts, batches }, db);
      const lines = chargeable.map(({ verdictId, serial, batch, cause, remedyMinor, carriageMinor, benchMinutes }) => ({ verdictId, serial, batch, cause, remedyMinor, carriageMinor, benchMinutes, benchMinor: toMinor(benchMinutes * benchMinute, currency) }));
      if (lines.length === 0) return { ok: false, reason: "nothing-to-charge" };
      const { number } = await insertChargeback(db, { supplierId, currency, benchMinute, madeById: actor.personId, madeAt: now }, lines);
      await appendAudit(db, { actor: auditActor(actor), action: "begin_chargeback", detail: { number, lines: lines.length } });
      return { ok: true, number, lines: lines.length };
    });
  } catch (error) {
    if (isUniqueViolation(error)) return { ok: false, reason: "charged-meanwhile" };
    throw error;
  }
}
