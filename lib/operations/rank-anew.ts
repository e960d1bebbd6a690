import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import { rankClaim } from "./rank-claim";
import { auditActor, refuse, type Refusal } from "./refusal";

export type RankAnewResult = { ok: true } | { ok: false; reason: "not-found" } | { ok: false; reason: "not-legal-here"; stage: ClaimStage };

/**
 * Ranks a claim with the edition now in force, without waiting for its next finding. A claim that has ended keeps the
 * ranking it was decided by.
 */
export async function rankAnew(actor: StaffActor, claimId: string): Promise<RankAnewResult | Refusal> {
  const refused = await refuse(actor, "record a finding", claimId);
  if (refused) return refused;
  return inTransaction(async (db): Promise<RankAnewResult> => {
    await lockClaim(db, claimId);
    const claim = await findClaimToActOn(claimId, db);
    if (!claim) return { ok: false, reason: "not-found" };
    if (!QUEUE_STAGES.some((open) => open === claim.stage)) return { ok: false, reason: "not-legal-here", stage: claim.stage };
    const { ranking } = await rankClaim(db, claimId);
    await appendAudit(db, { actor: auditActor(actor), action: "rank_anew", claimId, detail: { edition: ranking.edition } });
    return { ok: true };
  });
}
