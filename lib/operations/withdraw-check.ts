import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { withdrawCheckRequest } from "@/lib/data/check-requests";
import { countOpenCheckRequests } from "@/lib/data/claims-by-customer";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { auditActor, type Refusal, refuse } from "./refusal";

export type WithdrawCheckResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "not-open" };

/** Takes back a check that was asked for. With the last one the claim goes back into review. */
export async function withdrawCheck(actor: StaffActor, claimId: string, requestId: string, now: Date = new Date()): Promise<WithdrawCheckResult> {
  const refused = await refuse(actor, "ask for a check", claimId);
  if (refused) return refused;
  if (!(await findClaimToActOn(claimId))) return { ok: false, reason: "not-found" };
  return inTransaction(async (db) => {
    // Of the last two taken back or answered at once, one sees that none is left.
    await lockClaim(db, claimId);
    const withdrawn = await withdrawCheckRequest(db, claimId, requestId, now);
    if (!withdrawn) return { ok: false, reason: "not-open" };
    await appendAudit(db, { actor: auditActor(actor), action: "withdraw_check", claimId, detail: { finding: withdrawn.findingCode } });
    if ((await countOpenCheckRequests(db, claimId)) === 0) await moveClaim(db, claimId, "answer_checks", { actor: auditActor(actor) });
    return { ok: true };
  });
}
