import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertSettlement, listSettlements } from "@/lib/data/settlements";
import { loadSettings } from "@/lib/data/settings";
import { shareOut } from "@/lib/domain/claims/bearing-shares";
import { movesOf, roundOf, standingBookings } from "@/lib/domain/claims/bookings";
import { bookingSchema } from "@/lib/inputs/settlement";
import { auditActor, refuse, type Refusal } from "./refusal";
import { settleIfKept } from "./settle-if-kept";

export type BookSettlementResult =
  | { ok: true; settled: boolean }
  | Refusal
  | { ok: false; reason: "refused"; issues: readonly z.core.$ZodIssue[] }
  | { ok: false; reason: "not-found" | "not-legal-here" | "changed-meanwhile" }
  /** This is booked and not reversed. */
  | { ok: false; reason: "booked-already" };

/**
 * Books what something costs and who bears it, or a deposit taken, in the seller's currency: each kind once, until it is
 * reversed. The same form sent twice is one booking. The claim is settled with the booking that keeps the last promise.
 */
export async function bookSettlement(actor: StaffActor, claimId: string, typed: unknown, now: Date = new Date()): Promise<BookSettlementResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  const { currency } = await loadSettings();
  const input = bookingSchema(currency).safeParse(typed);
  if (!input.success) return { ok: false, reason: "refused", issues: input.error.issues };
  const { version, bookingKey, kind, amount: amountMinor, sellerPercent, supplierPercent, note } = input.data;

  return inTransaction(async (db): Promise<BookSettlementResult> => {
    await lockClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    if (!claim) return { ok: false, reason: "not-found" };
    const booked = await listSettlements(claimId, db);
    if (booked.some((one) => one.bookingKey === bookingKey)) return { ok: true, settled: claim.stage === "settled" };
    if (claim.version !== version) return { ok: false, reason: "changed-meanwhile" };
    if (claim.stage !== "decided" && claim.stage !== "settled") return { ok: false, reason: "not-legal-here" };
    if (standingBookings(booked).some((one) => one.kind === kind)) return { ok: false, reason: "booked-already" };
    const moves = movesOf(kind, amountMinor, shareOut(amountMinor, { sellerPercent, supplierPercent }));
    await insertSettlement(db, { claimId, kind, amountMinor, ...moves, currency, round: roundOf(booked, kind), bookingKey, note, bookedById: actor.personId, bookedAt: now, reversesId: null });
    await appendAudit(db, { actor: auditActor(actor), action: "book_settlement", claimId, detail: { kind, amountMinor, currency } });
    return { ok: true, settled: await settleIfKept(db, actor, claimId, now) };
  });
}
