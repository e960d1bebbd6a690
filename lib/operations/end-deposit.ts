import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertSettlement, listSettlements } from "@/lib/data/settlements";
import { DEPOSIT_ENDS, movesOf, roundOf, standingBookings } from "@/lib/domain/claims/bookings";
import type { depositEndSchema } from "@/lib/inputs/settlement";
import { auditActor, refuse, type Refusal } from "./refusal";
import { settleIfKept } from "./settle-if-kept";

export type EndDepositResult =
  | { ok: true; settled: boolean }
  | Refusal
  /** No such deposit stands with this claim. */
  | { ok: false; reason: "not-found" }
  /** It was given back or kept already. */
  | { ok: false; reason: "ended-already" };

const NOBODY = { sellerMinor: 0, customerMinor: 0, supplierMinor: 0 };

/** Gives the deposit for an old part back, or keeps it: whole, once, by a booking that can be reversed. */
export async function endDeposit(actor: StaffActor, claimId: string, { bookingKey, depositId, end, note }: z.output<typeof depositEndSchema>, now: Date = new Date()): Promise<EndDepositResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<EndDepositResult> => {
    await lockClaim(db, claimId);
    const booked = await listSettlements(claimId, db);
    if (booked.some((one) => one.bookingKey === bookingKey)) return { ok: true, settled: false };
    const standing = standingBookings(booked);
    const deposit = standing.find(({ id, kind }) => id === depositId && kind === "core_held");
    if (!deposit) return { ok: false, reason: "not-found" };
    if (standing.some(({ kind }) => DEPOSIT_ENDS.some((ending) => ending === kind))) return { ok: false, reason: "ended-already" };
    const { amountMinor, currency } = deposit;
    await insertSettlement(db, { claimId, kind: end, amountMinor, ...movesOf(end, amountMinor, NOBODY), currency, round: roundOf(booked, end), bookingKey, note, bookedById: actor.personId, bookedAt: now, reversesId: null });
    await appendAudit(db, { actor: auditActor(actor), action: "book_settlement", claimId, detail: { kind: end, amountMinor, currency } });
    return { ok: true, settled: await settleIfKept(db, actor, claimId, now) };
  });
}
