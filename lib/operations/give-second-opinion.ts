import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findAsked, findSecondOpinion, insertSecondOpinion } from "@/lib/data/blind-sample";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { loadEditionInForce } from "@/lib/data/editions";
import { lockClaim } from "@/lib/data/lock-claim";
import { loadSettings } from "@/lib/data/settings";
import type { SecondOpinionInput } from "@/lib/inputs/second-opinion";
import { auditActor, type Refusal, refuse } from "./refusal";

export type NotAsked =
  | { ok: false; reason: "not-found" | "not-asked" | "decided-by-you" }
  /** One is enough: whose it is, and when it was given. */
  | { ok: false; reason: "given-already"; by: string; at: Date };

export type GiveSecondOpinionResult = { ok: true } | Refusal | NotAsked | { ok: false; reason: "unknown-cause" };

/**
 * Keeps what another person makes of a decided claim of the blind sample. It stands beside the verdict and never changes
 * it. Of two at once the second is told.
 */
export async function giveSecondOpinion(actor: StaffActor, claimId: string, { primaryCause, attribution }: SecondOpinionInput, now: Date = new Date()): Promise<GiveSecondOpinionResult> {
  const refused = await refuse(actor, "confirm a verdict", claimId);
  if (refused) return refused;
  const [{ causes }, { secondOpinionShare }] = await Promise.all([loadEditionInForce(), loadSettings()]);
  if (!causes.some(({ code }) => code === primaryCause)) return { ok: false, reason: "unknown-cause" };
  return inTransaction(async (db): Promise<GiveSecondOpinionResult> => {
    await lockClaim(db, claimId);
    if (!(await findClaimToActOn(claimId, db))) return { ok: false, reason: "not-found" };
    const given = await findSecondOpinion(claimId, db);
    if (given) return { ok: false, reason: "given-already", by: given.givenBy.name, at: given.givenAt };
    const { verdictId, hasDecided } = await findAsked(db, claimId, actor.personId, secondOpinionShare, now);
    if (verdictId === null) return { ok: false, reason: "not-asked" };
    if (hasDecided) return { ok: false, reason: "decided-by-you" };
    await insertSecondOpinion(db, { claimId, verdictId, primaryCause, attribution, givenById: actor.personId, givenAt: now });
    await appendAudit(db, { actor: auditActor(actor), action: "give_second_opinion", claimId, detail: { primaryCause, attribution } });
    return { ok: true };
  });
}
