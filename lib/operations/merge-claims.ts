import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { withdrawOpenCheckRequests } from "@/lib/data/claims-by-customer";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { type Db, inTransaction } from "@/lib/data/client";
import { findClaimByReference, findMergedAt, hasOpenReturn, isDecidedSince, lockClaims, moveMerged } from "@/lib/data/joined-claims";
import { moveClaim } from "@/lib/data/move-claim";
import { queueMail } from "@/lib/data/outgoing-mail";
import { loadSettings } from "@/lib/data/settings";
import { listSettlements } from "@/lib/data/settlements";
import { standingBookings } from "@/lib/domain/claims/bookings";
import { transition } from "@/lib/domain/claims/lifecycle";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { MergeClaimInput } from "@/lib/inputs/joined-claims";
import { mergedMail } from "@/lib/mail/merged-mail";
import { wordsIn } from "@/lib/messages/words";
import { newClaimLink } from "./claim-links";
import { rankClaim } from "./rank-claim";
import { auditActor, type Refusal, refuse } from "./refusal";
import { takeInPassing } from "./take-in-passing";

export type MergeClaimResult =
  | { ok: true }
  | Refusal
  | { ok: false; reason: "not-found" | "no-such-reference" | "same-claim" | "unit-on-its-way" | "money-booked" | "changed-meanwhile" }
  /** The other one has ended without a verdict, or went on into a third. */
  | { ok: false; reason: "other-has-ended"; stage: ClaimStage }
  | { ok: false; reason: "not-legal-here"; stage: ClaimStage };

const isOpen = (stage: ClaimStage) => QUEUE_STAGES.some((open) => open === stage);

/**
 * Merges a claim into another that is the same complaint filed before. It ends as merged and keeps what it holds; the
 * other shows its findings, photos and messages beside its own and is ranked by both. What was merged into it goes along.
 */
export async function mergeClaim(actor: StaffActor, claimId: string, { into, version }: MergeClaimInput, now: Date = new Date()): Promise<MergeClaimResult> {
  const refused = await refuse(actor, "link or merge claims", claimId);
  if (refused) return refused;
  const [claim, other, seller] = await Promise.all([findClaimToActOn(claimId), findClaimByReference(into), loadSettings()]);
  if (!claim) return { ok: false, reason: "not-found" };
  if (!other) return { ok: false, reason: "no-such-reference" };
  if (other.id === claimId) return { ok: false, reason: "same-claim" };
  return inTransaction(async (db): Promise<MergeClaimResult> => {
    // Of two that merge a pair crosswise at once, the second finds its first claim merged already.
    await lockClaims(db, [claimId, other.id]);
    const stage = (await findClaimByReference(into, db))?.stage ?? other.stage;
    if (!isOpen(stage) && stage !== "decided" && stage !== "settled") return { ok: false, reason: "other-has-ended", stage };
    if (await hasOpenReturn(db, claimId)) return { ok: false, reason: "unit-on-its-way" };
    // The reports count a merged claim with the other, and nobody could reverse its bookings any more.
    if (standingBookings(await listSettlements(claimId, db)).length > 0) return { ok: false, reason: "money-booked" };
    const moved = await moveClaim(db, claimId, "merge", { actor: auditActor(actor), detail: { into: other.reference } }, { expectedVersion: version, changes: { mergedIntoId: other.id } });
    if (!moved.ok) return moved;
    await moveMerged(db, claimId, other.id);
    await withdrawOpenCheckRequests(db, claimId, now);
    await appendAudit(db, { actor: auditActor(actor), action: "take_in", claimId: other.id, detail: { other: claim.reference } });
    await rankIfOpen(db, other.id, stage);
    const isOwn = claim.contactEmail?.toLowerCase() === other.contactEmail?.toLowerCase();
    const to = { name: claim.contactName ?? "", address: claim.contactEmail ?? "" };
    const mail = mergedMail({ name: to.name, reference: claim.reference, into: isOwn ? other.reference : null, link: await newClaimLink(db, claim, now), seller }, wordsIn(claim.language));
    await queueMail(db, { onceKey: `merged:${claimId}:${moved.version}`, claimId, to, ...mail });
    return { ok: true };
  });
}

export type TakeApartResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "decided-together" | "changed-meanwhile" } | { ok: false; reason: "not-legal-here"; stage: ClaimStage };

/**
 * Takes a merged claim out again: it goes back into review, and the other one is ranked without it. Once the other has
 * been decided, the verdict rests on both and they stay together.
 */
export async function takeApart(actor: StaffActor, claimId: string): Promise<TakeApartResult> {
  const refused = await refuse(actor, "link or merge claims", claimId);
  if (refused) return refused;
  const claim = await findClaimToActOn(claimId);
  if (!claim) return { ok: false, reason: "not-found" };
  const intoId = claim.mergedIntoId;
  if (intoId === null || !transition(claim.stage, "take_apart").ok) return { ok: false, reason: "not-legal-here", stage: claim.stage };
  return inTransaction(async (db): Promise<TakeApartResult> => {
    await lockClaims(db, [claimId, intoId]);
    const [into, mergedAt] = [await findClaimToActOn(intoId, db), await findMergedAt(db, claimId)];
    if (!into || !mergedAt || (await isDecidedSince(db, intoId, mergedAt))) return { ok: false, reason: "decided-together" };
    const moved = await moveClaim(db, claimId, "take_apart", { actor: auditActor(actor), detail: { from: into.reference } }, { changes: { mergedIntoId: null } });
    if (!moved.ok) return moved;
    await appendAudit(db, { actor: auditActor(actor), action: "let_go", claimId: intoId, detail: { other: claim.reference } });
    await takeInPassing(db, actor, claimId);
    await rankClaim(db, claimId);
    await rankIfOpen(db, intoId, into.stage);
    return { ok: true };
  });
}

/** A claim that has ended keeps the ranking it was decided by. */
async function rankIfOpen(db: Db, claimId: string, stage: ClaimStage): Promise<void> {
  if (isOpen(stage)) await rankClaim(db, claimId);
}
