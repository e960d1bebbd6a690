import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { reopenDecidedClaim } from "@/lib/data/verdicts";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { appealSchema } from "@/lib/inputs/verdict";
import { auditActor, type Refusal, refuse } from "./refusal";

export type ReopenOnAppealResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "changed-meanwhile" }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/** Takes a decided claim back into review: its verdict no longer stands, and stays in the claim's story. */
export async function reopenOnAppeal(actor: StaffActor, claimId: string, input: { reason: string }, now: Date = new Date()): Promise<ReopenOnAppealResult> {
  const refused = await refuse(actor, "confirm a verdict", claimId);
  if (refused) return refused;
  const parsed = appealSchema.safeParse(input);
  if (!parsed.success) return { ok: false, reason: "refused", messages: { reason: parsed.error.issues[0]?.message ?? "" } };
  if (!(await findClaimToActOn(claimId))) return { ok: false, reason: "not-found" };
  return inTransaction(async (db): Promise<ReopenOnAppealResult> => {
    const moved = await reopenDecidedClaim(db, claimId, { actor: auditActor(actor), detail: { reason: parsed.data.reason } }, parsed.data.reason, now);
    return moved.ok ? { ok: true } : moved;
  });
}
