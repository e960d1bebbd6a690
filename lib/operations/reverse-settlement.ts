import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertSettlement, listSettlements } from "@/lib/data/settlements";
import { DEPOSIT_ENDS, standingBookings } from "@/lib/domain/claims/bookings";
import type { reversalSchema } from "@/lib/inputs/settlement";
import { auditActor, refuse, type Refusal } from "./refusal";

export type ReverseSettlementResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "reversed-already" | "is-a-reversal" }
  /** The deposit was given back or kept: that booking is reversed first. */
  | { ok: false; reason: "deposit-ended" };

/** Books the opposite of a booking, share by share. Nothing booked is ever changed or removed. */
export async function reverseSettlement(actor: StaffActor, claimId: string, { bookingKey, settlementId, note }: z.output<typeof reversalSchema>, now: Date = new Date()): Promise<ReverseSettlementResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<ReverseSettlementResult> => {
    await lockClaim(db, claimId);
    const booked = await listSettlements(claimId, db);
    if (booked.some((one) => one.bookingKey === bookingKey)) return { ok: true };
    const wrong = booked.find(({ id }) => id === settlementId);
    if (!wrong) return { ok: false, reason: "not-found" };
    if (wrong.reversesId) return { ok: false, reason: "is-a-reversal" };
    const standing = standingBookings(booked);
    if (!standing.some(({ id }) => id === settlementId)) return { ok: false, reason: "reversed-already" };
    if (wrong.kind === "core_held" && standing.some(({ kind }) => DEPOSIT_ENDS.some((end) => end === kind))) return { ok: false, reason: "deposit-ended" };
    const { kind, amountMinor, sellerMinor, customerMinor, supplierMinor, heldMinor, currency } = wrong;
    // Less nothing is nothing: minus zero would be another number to a test and to nobody else.
    const back = (minor: number) => 0 - minor;
    await insertSettlement(db, {
      claimId,
      kind,
      amountMinor: back(amountMinor),
      sellerMinor: back(sellerMinor),
      customerMinor: back(customerMinor),
      supplierMinor: back(supplierMinor),
      heldMinor: back(heldMinor),
      currency,
      round: 0,
      bookingKey,
      note,
      bookedById: actor.personId,
      bookedAt: now,
      reversesId: settlementId,
    });
    await appendAudit(db, { actor: auditActor(actor), action: "reverse_settlement", claimId, detail: { kind, amountMinor: -amountMinor, currency } });
    return { ok: true };
  });
}
