import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { withdrawOpenCheckRequests } from "@/lib/data/claims-by-customer";
import type { ClaimToActOn } from "@/lib/data/claims-for-staff";
import type { Db } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { insertVerdict, supersedeVerdict } from "@/lib/data/verdicts";
import type { Verdict } from "@/lib/domain/claims/verdict";
import { verdictMail } from "@/lib/mail/desk-mails";
import { wordsIn } from "@/lib/messages/words";
import { newClaimLink } from "./claim-links";
import { auditActor } from "./refusal";

export interface VerdictToGive {
  verdict: Verdict;
  letter: string;
  rankingId: string | null;
  /** Who decided it, where the actor only approves. */
  proposedById?: string;
}

/**
 * Gives a verdict: it stands, the letter is queued as mail, what was still asked is taken back. Part of the operations
 * that confirm and approve a verdict, which have checked who asks and hold the claim.
 *
 * @param expectedVersion the version the person saw; left out by who approves, whose guard is the ranking
 * @returns the verdict's id, or null where the claim has changed since
 */
export async function giveVerdict(db: Db, actor: StaffActor, claim: ClaimToActOn, { verdict, letter, rankingId, proposedById }: VerdictToGive, now: Date, expectedVersion?: number): Promise<string | null> {
  const { primaryCause, attribution, remedy, way, basis } = verdict;
  const moved = await moveClaim(
    db,
    claim.id,
    "decide",
    { actor: auditActor(actor), detail: { primaryCause, attribution, remedy, way, basis, ...(proposedById ? { proposedBy: proposedById } : {}) } },
    { ...(expectedVersion === undefined ? {} : { expectedVersion }), changes: { decidedAt: now, firstAnswerAt: claim.firstAnswerAt ?? now } },
  );
  if (!moved.ok) return null;
  await supersedeVerdict(db, claim.id, now);
  const { id } = await insertVerdict(db, { ...verdict, claimId: claim.id, letter, rankingId, decidedById: proposedById ?? actor.personId, decidedAt: now, ...(proposedById ? { approvedById: actor.personId, approvedAt: now } : {}) });
  await withdrawOpenCheckRequests(db, claim.id, now);
  const mail = verdictMail({ reference: claim.reference, letter, link: await newClaimLink(db, claim, now) }, wordsIn(claim.language));
  await queueMail(db, { onceKey: `verdict:${id}`, claimId: claim.id, to: { name: claim.contactName ?? "", address: claim.contactEmail ?? "" }, ...mail });
  return id;
}
