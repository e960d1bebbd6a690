import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { withdrawOpenCheckRequests } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { moveClaim } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { findLatestRanking } from "@/lib/data/rankings";
import { findStandingVerdict, insertVerdict, supersedeVerdict } from "@/lib/data/verdicts";
import type { VerdictInput } from "@/lib/inputs/verdict";
import { verdictMail } from "@/lib/mail/desk-mails";
import { newClaimLink } from "./claim-links";
import { type NotPrepared, prepareVerdict } from "./prepare-verdict";
import { auditActor, type Refusal, refuse } from "./refusal";

export type ConfirmVerdictResult =
  | { ok: true; verdictId: string }
  | Refusal
  | NotPrepared
  /** The verdict makes another letter than the one the person read: here it is. Nothing was sent. */
  | { ok: false; reason: "letter-not-read"; letter: string; fingerprint: string }
  /** Another person was first: who, and when. */
  | { ok: false; reason: "decided-meanwhile"; by: string; at: Date }
  | { ok: false; reason: "changed-meanwhile" };

/**
 * Decides a claim: verdict, letter, mail and audit line in one transaction, guarded by the version and the letter the person saw. Of two
 * people deciding at once the second is told who decided and when; nothing is overwritten.
 */
export async function confirmVerdict(actor: StaffActor, claimId: string, input: VerdictInput, now: Date = new Date()): Promise<ConfirmVerdictResult> {
  const refused = await refuse(actor, "confirm a verdict", claimId);
  if (refused) return refused;
  const prepared = await prepareVerdict(claimId, input);
  if (!prepared.ok) return prepared.reason === "not-legal-here" ? ((await decidedBy(claimId)) ?? prepared) : prepared;
  const { claim, verdict, letter, fingerprint, rankingId } = prepared;
  if (fingerprint !== input.letterSeen) return { ok: false, reason: "letter-not-read", letter, fingerprint };

  const decided = await inTransaction(async (db): Promise<{ ok: true; verdictId: string } | { ok: false; reason: "ranked-meanwhile" } | null> => {
    await lockClaim(db, claimId);
    if (((await findLatestRanking(claimId, db))?.id ?? null) !== rankingId) return { ok: false, reason: "ranked-meanwhile" };
    const moved = await moveClaim(
      db,
      claimId,
      "decide",
      { actor: auditActor(actor), detail: { primaryCause: verdict.primaryCause, attribution: verdict.attribution, remedy: verdict.remedy, way: verdict.way, basis: verdict.basis } },
      { expectedVersion: input.version, changes: { decidedAt: now, firstAnswerAt: claim.firstAnswerAt ?? now } },
    );
    if (!moved.ok) return null;
    await supersedeVerdict(db, claimId, now);
    const { id } = await insertVerdict(db, { ...verdict, claimId, letter, rankingId, decidedById: actor.personId, decidedAt: now });
    await withdrawOpenCheckRequests(db, claimId, now);
    const mail = verdictMail({ reference: claim.reference, letter, link: await newClaimLink(db, claim, now) });
    await queueMail(db, { onceKey: `verdict:${id}`, claimId, to: { name: claim.contactName ?? "", address: claim.contactEmail ?? "" }, ...mail });
    return { ok: true, verdictId: id };
  });
  return decided ?? (await decidedBy(claimId)) ?? { ok: false, reason: "changed-meanwhile" };
}

async function decidedBy(claimId: string) {
  const standing = await findStandingVerdict(claimId);
  return standing && ({ ok: false, reason: "decided-meanwhile", by: standing.decidedBy.name, at: standing.decidedAt } as const);
}
