import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { findLatestRanking } from "@/lib/data/rankings";
import { loadSettings } from "@/lib/data/settings";
import { findSentBackProposal, findWaitingProposal, listVerdicts } from "@/lib/data/verdicts";
import { may } from "@/lib/domain/claims/permissions";
import { expectedRemedyCosts, proposeRemedy, type RemedyCost } from "@/lib/domain/claims/remedy-costs";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { SecondPersonGround } from "@/lib/domain/claims/second-person";
import { isContested, mayDecideAgain, type Verdict } from "@/lib/domain/claims/verdict";
import { refuse, type Refusal } from "./refusal";
import { remedyPricesOf, remedyStakesOf } from "./remedy-prices";

/** A verdict that waits for a second person, or that one sent back. */
export interface ShownProposal extends Verdict {
  id: string;
  letter: string;
  explanation: string;
  grounds: readonly SecondPersonGround[];
  by: string;
  at: Date;
  isOwn: boolean;
  /** Something new was found since: it can only be sent back. */
  isOutdated: boolean;
  lookedAtBy: string | null;
  note: string;
}

export interface VerdictMatter {
  ok: true;
  /** What each remedy is expected to cost, the least first; empty without a ranking. */
  costs: readonly RemedyCost[];
  /** The remedy the ranking speaks for. */
  remedy: Remedy | null;
  currency: string;
  /** Above this a second person looks. */
  secondPersonAbove: number;
  waiting: ShownProposal | null;
  sentBack: ShownProposal | null;
  /** What was said against the verdict that was taken back, and who gave it; null where none was. */
  objection: { words: string; decidedBy: string } | null;
  /** False for whoever gave the verdict that was taken back. */
  mayDecideAgain: boolean;
  mayLook: boolean;
}

/** All that a person weighs who decides a claim, beside its findings: the costs, a verdict that waits, an objection. */
export async function loadVerdictMatter(actor: StaffActor, claimId: string): Promise<VerdictMatter | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  const [claim, kept, settings, verdicts, waiting, sentBack] = await Promise.all([findClaimToActOn(claimId), findLatestRanking(claimId), loadSettings(), listVerdicts(claimId), findWaitingProposal(claimId), findSentBackProposal(claimId)]);
  if (!claim) return { ok: false, reason: "not-found" };
  const prices = remedyPricesOf(settings, claim.unit?.turboModel ?? claim.kitRevision?.kit.turboModel);
  const costs = expectedRemedyCosts(kept?.ranking ?? null, prices, remedyStakesOf(settings));
  const seesCustomer = may(actor.role, "see the customer");
  const shown = (proposal: typeof waiting): ShownProposal | null =>
    proposal && {
      ...proposal,
      // The database keeps none but these.
      grounds: proposal.grounds as SecondPersonGround[],
      letter: seesCustomer ? proposal.letter : "",
      explanation: seesCustomer ? proposal.explanation : "",
      reason: seesCustomer ? proposal.reason : "",
      note: seesCustomer ? proposal.note : "",
      by: proposal.proposedBy.name,
      at: proposal.proposedAt,
      isOwn: proposal.proposedBy.id === actor.personId,
      isOutdated: (kept?.id ?? null) !== proposal.rankingId,
      lookedAtBy: proposal.lookedAtBy?.name ?? null,
    };
  const [last] = verdicts;
  return {
    ok: true,
    costs,
    remedy: proposeRemedy(kept?.ranking ?? null, costs),
    currency: settings.currency,
    secondPersonAbove: settings.secondPersonAbove,
    waiting: shown(waiting),
    sentBack: shown(sentBack),
    objection: isContested(verdicts) && last ? { words: seesCustomer ? last.objection : "", decidedBy: last.decidedBy.name } : null,
    mayDecideAgain: mayDecideAgain({ id: actor.personId, role: actor.role }, verdicts),
    mayLook: may(actor.role, "look a second time"),
  };
}
