import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { type Db, inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { findLatestRanking } from "@/lib/data/rankings";
import { closeProposal, findWaitingProposal, type WaitingProposal } from "@/lib/data/verdicts";
import { transition } from "@/lib/domain/claims/lifecycle";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Verdict } from "@/lib/domain/claims/verdict";
import { sendBackSchema } from "@/lib/inputs/verdict";
import { giveVerdict } from "./give-verdict";
import { auditActor, type Refusal, refuse } from "./refusal";

export type SecondLookResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "changed-meanwhile" }
  /** It was approved, sent back or taken back meanwhile. */
  | { ok: false; reason: "not-waiting" }
  /** Nobody approves or sends back their own. */
  | { ok: false; reason: "own-verdict" }
  /** Something new was found since: it is sent back, and decided anew. */
  | { ok: false; reason: "ranked-since" }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage }
  | { ok: false; reason: "refused"; messages: Record<string, string> };

/**
 * A second person approves a verdict that waits: it stands from now on, with the letter as they read it, and the customer
 * hears of it. Never by who proposed it, and not once something new was found.
 */
export async function approveVerdict(actor: StaffActor, claimId: string, proposalId: string, now: Date = new Date()): Promise<SecondLookResult> {
  const refused = await refuse(actor, "look a second time", claimId);
  if (refused) return refused;
  return whileItWaits(claimId, proposalId, async (db, proposal) => {
    if (proposal.proposedBy.id === actor.personId) return { ok: false, reason: "own-verdict" };
    const claim = await findClaimToActOn(claimId, db);
    if (!claim) return { ok: false, reason: "not-found" };
    if (!transition(claim.stage, "decide").ok) return { ok: false, reason: "not-legal-here", stage: claim.stage };
    if (((await findLatestRanking(claimId, db))?.id ?? null) !== proposal.rankingId) return { ok: false, reason: "ranked-since" };
    await closeProposal(db, proposalId, "approved", actor.personId, now);
    const given = await giveVerdict(db, actor, claim, { verdict: verdictOf(proposal), letter: proposal.letter, rankingId: proposal.rankingId, proposedById: proposal.proposedBy.id }, now);
    if (given === null) throw new Error("approveVerdict needs the claim it has locked to be where it was read");
    return { ok: true };
  });
}

/** A second person sends a verdict back, with what is to be looked at again. The claim stays where it is. */
export async function sendBackVerdict(actor: StaffActor, claimId: string, proposalId: string, input: { note: string }, now: Date = new Date()): Promise<SecondLookResult> {
  const refused = await refuse(actor, "look a second time", claimId);
  if (refused) return refused;
  const parsed = sendBackSchema.safeParse(input);
  if (!parsed.success) return { ok: false, reason: "refused", messages: { note: parsed.error.issues[0]?.message ?? "" } };
  return whileItWaits(claimId, proposalId, async (db, proposal) => {
    if (proposal.proposedBy.id === actor.personId) return { ok: false, reason: "own-verdict" };
    await closeProposal(db, proposalId, "sent_back", actor.personId, now, parsed.data.note);
    await appendAudit(db, { actor: auditActor(actor), action: "send_back_verdict", claimId, detail: { reason: parsed.data.note } });
    return { ok: true };
  });
}

/** Takes a verdict back that waits: who proposed it does, or any other who may approve. */
export async function takeBackVerdict(actor: StaffActor, claimId: string, proposalId: string, now: Date = new Date()): Promise<SecondLookResult> {
  const refused = await refuse(actor, "look a second time", claimId);
  if (refused) return refused;
  return whileItWaits(claimId, proposalId, async (db) => {
    await closeProposal(db, proposalId, "withdrawn", actor.personId, now);
    await appendAudit(db, { actor: auditActor(actor), action: "take_back_verdict", claimId, detail: {} });
    return { ok: true };
  });
}

/** What is done with a proposal that waits, one at a time. */
function whileItWaits(claimId: string, proposalId: string, act: (db: Db, proposal: WaitingProposal) => Promise<SecondLookResult>): Promise<SecondLookResult> {
  return inTransaction(async (db): Promise<SecondLookResult> => {
    await lockClaim(db, claimId);
    const proposal = await findWaitingProposal(claimId, db);
    return proposal?.id === proposalId ? act(db, proposal) : { ok: false, reason: "not-waiting" };
  });
}

function verdictOf({ primaryCause, contributingCauses, attribution, origin, way, basis, reason, remedy, promisedMinor, promisedCurrency, sellerPercent, coreDepositMinor, paysCarriage, letterPhotos }: WaitingProposal): Verdict {
  return { primaryCause, contributingCauses, attribution, origin, way, basis, reason, remedy, promisedMinor, promisedCurrency, sellerPercent, coreDepositMinor, paysCarriage, letterPhotos };
}
