import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { insertSettlement, listSettlements } from "@/lib/data/settlements";
import { loadSettings } from "@/lib/data/settings";
import { findStandingVerdict } from "@/lib/data/verdicts";
import { shareOut } from "@/lib/domain/claims/bearing-shares";
import { movesOf, roundOf, standingBookings, totalsOf } from "@/lib/domain/claims/bookings";
import { toMinor } from "@/lib/domain/claims/money";
import { bookingSchema } from "@/lib/inputs/settlement";
import { auditActor, refuse, type Refusal } from "./refusal";
import { settleIfKept } from "./settle-if-kept";

export type BookSettlementResult =
  | { ok: true; settled: boolean }
  | Refusal
  | { ok: false; reason: "refused"; issues: readonly z.core.$ZodIssue[] }
  | { ok: false; reason: "not-found" | "not-legal-here" | "changed-meanwhile" }
  /** This is booked and not reversed. */
  | { ok: false; reason: "booked-already" }
  /** What the seller bears would pass what one person decides alone, and this person decided alone. */
  | { ok: false; reason: "takes-a-second-person" };

/**
 * Books what something costs and who bears it, or a deposit taken, in the seller's currency: each kind once, until it is
 * reversed. The same form sent twice is one booking. The claim is settled with the booking that keeps the last promise.
 * Above the set value in all, whoever decided without a second person does not book it as well.
 */
export async function bookSettlement(actor: StaffActor, claimId: string, typed: unknown, now: Date = new Date()): Promise<BookSettlementResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  const { currency, secondPersonAbove } = await loadSettings();
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
    const bornMinor = totalsOf([...booked, { ...moves, currency }]).find((total) => total.currency === currency)?.sellerMinor ?? 0;
    const verdict = await findStandingVerdict(claimId, db);
    if (moves.sellerMinor > 0 && bornMinor > toMinor(secondPersonAbove, currency) && verdict?.decidedById === actor.personId && verdict.approvedById === null) return { ok: false, reason: "takes-a-second-person" };
    await insertSettlement(db, { claimId, kind, amountMinor, ...moves, currency, round: roundOf(booked, kind), bookingKey, note, bookedById: actor.personId, bookedAt: now, reversesId: null });
    await appendAudit(db, { actor: auditActor(actor), action: "book_settlement", claimId, detail: { kind, amountMinor, currency } });
    return { ok: true, settled: await settleIfKept(db, actor, claimId, now) };
  });
}
