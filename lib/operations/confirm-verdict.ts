import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { findLatestRanking } from "@/lib/data/rankings";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { findStandingVerdict, findWaitingProposal, insertProposal } from "@/lib/data/verdicts";
import type { VerdictInput } from "@/lib/inputs/verdict";
import { giveVerdict } from "./give-verdict";
import { type NotPrepared, prepareVerdict } from "./prepare-verdict";
import { auditActor, type Refusal, refuse } from "./refusal";
import { takeInPassing } from "./take-in-passing";

export type ConfirmVerdictResult =
  | { ok: true; verdictId: string }
  /** It waits for a second person; the customer hears nothing yet. */
  | { ok: true; proposalId: string }
  | Refusal
  | NotPrepared
  /** The verdict makes another letter than the one the person read: here it is. Nothing was sent. */
  | { ok: false; reason: "letter-not-read"; letter: string; fingerprint: string }
  /** Another person was first: who, and when. */
  | { ok: false; reason: "decided-meanwhile"; by: string; at: Date }
  /** A verdict waits for a second person already. */
  | { ok: false; reason: "waits-already"; by: string }
  | { ok: false; reason: "changed-meanwhile" };

type Decided = Extract<ConfirmVerdictResult, { ok: true } | { reason: "ranked-meanwhile" | "waits-already" }>;

/**
 * Decides a claim: verdict, letter, mail and audit line in one transaction, guarded by the version and the letter the person
 * saw. What costs more than one person decides alone, or declines against the ranking, waits for a second person instead.
 * Of two people deciding at once the second is told who decided and when; nothing is overwritten.
 */
export async function confirmVerdict(actor: StaffActor, claimId: string, input: VerdictInput, now: Date = new Date()): Promise<ConfirmVerdictResult> {
  const refused = await refuse(actor, "confirm a verdict", claimId);
  if (refused) return refused;
  const prepared = await prepareVerdict(claimId, input, actor);
  if (!prepared.ok) return prepared.reason === "not-legal-here" ? ((await decidedBy(claimId)) ?? prepared) : prepared;
  const { claim, verdict, letter, fingerprint, rankingId, grounds } = prepared;
  if (fingerprint !== input.letterSeen) return { ok: false, reason: "letter-not-read", letter, fingerprint };

  const decided = await inTransaction(async (db): Promise<Decided | null> => {
    await lockClaim(db, claimId);
    if (((await findLatestRanking(claimId, db))?.id ?? null) !== rankingId) return { ok: false, reason: "ranked-meanwhile" };
    const waiting = await findWaitingProposal(claimId, db);
    if (waiting) return { ok: false, reason: "waits-already", by: waiting.proposedBy.name };
    if (grounds.length === 0) {
      const verdictId = await giveVerdict(db, actor, claim, { verdict, letter, rankingId }, now, input.version);
      return verdictId === null ? null : { ok: true, verdictId };
    }
    if ((await findClaimToActOn(claimId, db))?.version !== input.version) return null;
    await takeInPassing(db, actor, claimId);
    const { id } = await insertProposal(db, { ...verdict, claimId, letter, explanation: input.explanation, grounds, rankingId, proposedById: actor.personId, proposedAt: now });
    await appendAudit(db, { actor: auditActor(actor), action: "propose_verdict", claimId, detail: { primaryCause: verdict.primaryCause, remedy: verdict.remedy, grounds: [...grounds] } });
    return { ok: true, proposalId: id };
  });
  return decided ?? (await decidedBy(claimId)) ?? { ok: false, reason: "changed-meanwhile" };
}

async function decidedBy(claimId: string) {
  const standing = await findStandingVerdict(claimId);
  return standing && ({ ok: false, reason: "decided-meanwhile", by: standing.decidedBy.name, at: standing.decidedAt } as const);
}
