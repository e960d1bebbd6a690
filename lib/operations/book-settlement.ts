import "server-only";
import type { z } from "zod";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { insertSettlement, listSettlements } from "@/lib/data/settlements";
import { loadSettings } from "@/lib/data/settings";
import { paysMoney } from "@/lib/domain/claims/remedies";
import { settlementSchema } from "@/lib/inputs/settlement";
import { auditActor, refuse, type Refusal } from "./refusal";

export type BookSettlementResult =
  | { ok: true; settled: boolean }
  | Refusal
  | { ok: false; reason: "refused"; issues: readonly z.core.$ZodIssue[] }
  | { ok: false; reason: "not-found" | "not-legal-here" | "changed-meanwhile" }
  /** This remedy is booked and not reversed. */
  | { ok: false; reason: "booked-already" }
  /** A refund or goodwill without an amount, and none is booked. */
  | { ok: false; reason: "amount-missing" }
  /** No amount, and the claim is not to be settled. */
  | { ok: false; reason: "nothing-to-do" };

/**
 * Books what a remedy costs, in the seller's currency, once for each remedy; and settles the claim where that is all.
 * Without an amount the claim is settled without money, where the remedy is not money itself.
 */
export async function bookSettlement(actor: StaffActor, claimId: string, typed: unknown, now: Date = new Date()): Promise<BookSettlementResult> {
  const refused = await refuse(actor, "book a settlement", claimId);
  if (refused) return refused;
  const { currency } = await loadSettings();
  const input = settlementSchema(currency).safeParse(typed);
  if (!input.success) return { ok: false, reason: "refused", issues: input.error.issues };
  const { version, remedy, amount: amountMinor, note, settles } = input.data;

  return inTransaction(async (db) => {
    await lockClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    if (!claim) return { ok: false, reason: "not-found" };
    if (claim.version !== version) return { ok: false, reason: "changed-meanwhile" };
    if (claim.stage !== "decided" && claim.stage !== "settled") return { ok: false, reason: "not-legal-here" };
    const isSettling = settles === "yes" && claim.stage === "decided";
    const isBooked = (await listSettlements(claimId, db)).some((other) => other.remedy === remedy && !other.reversesId && !other.reversedBy);
    if (amountMinor === 0 && paysMoney(remedy) && !isBooked) return { ok: false, reason: "amount-missing" };
    if (amountMinor === 0 && !isSettling) return { ok: false, reason: "nothing-to-do" };
    if (amountMinor > 0) {
      if (isBooked) return { ok: false, reason: "booked-already" };
      await insertSettlement(db, { claimId, remedy, amountMinor, currency, note, bookedById: actor.personId, bookedAt: now });
      await appendAudit(db, { actor: auditActor(actor), action: "book_settlement", claimId, detail: { remedy, amountMinor, currency } });
    }
    if (isSettling) await moveClaim(db, claimId, "settle", { actor: auditActor(actor), detail: { remedy, amountMinor } }, { changes: { settledAt: now } });
    return { ok: true, settled: isSettling };
  });
}
