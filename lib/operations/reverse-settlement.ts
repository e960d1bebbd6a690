import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertSettlement, listSettlements } from "@/lib/data/settlements";
import type { reversalSchema } from "@/lib/inputs/settlement";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ReverseSettlementResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "reversed-already" | "is-a-reversal" };

/** Books the opposite of a booking. Nothing booked is ever changed or removed. */
export async function reverseSettlement(actor: StaffActor, claimId: string, { settlementId, note }: z.output<typeof reversalSchema>, now: Date = new Date()): Promise<ReverseSettlementResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const booked = (await listSettlements(claimId, db)).find(({ id }) => id === settlementId);
    if (!booked) return { ok: false, reason: "not-found" };
    if (booked.reversesId) return { ok: false, reason: "is-a-reversal" };
    if (booked.reversedBy) return { ok: false, reason: "reversed-already" };
    const { remedy, amountMinor, currency } = booked;
    await insertSettlement(db, { claimId, remedy, amountMinor: -amountMinor, currency, note, bookedById: actor.personId, bookedAt: now, reversesId: settlementId });
    await appendAudit(db, { actor: auditActor(actor), action: "reverse_settlement", claimId, detail: { remedy, amountMinor: -amountMinor, currency } });
    return { ok: true };
  });
}
