import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { deleteLink, findClaimByReference, insertLink } from "@/lib/data/joined-claims";
import type { LinkClaimInput } from "@/lib/inputs/joined-claims";
import { auditActor, type Refusal, refuse } from "./refusal";

export type LinkClaimsResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "no-such-reference" | "same-claim" };

/** Links two claims that have to do with each other and are not the same complaint; both tell of it. Linked twice is linked once. */
export async function linkClaims(actor: StaffActor, claimId: string, { reference, why }: LinkClaimInput): Promise<LinkClaimsResult> {
  const refused = await refuse(actor, "link or merge claims", claimId);
  if (refused) return refused;
  const [claim, other] = await Promise.all([findClaimToActOn(claimId), findClaimByReference(reference)]);
  if (!claim) return { ok: false, reason: "not-found" };
  if (!other) return { ok: false, reason: "no-such-reference" };
  if (other.id === claimId) return { ok: false, reason: "same-claim" };
  return inTransaction(async (db) => {
    if (!(await insertLink(db, claimId, other.id, { why, linkedById: actor.personId }))) return { ok: true };
    await appendAudit(db, { actor: auditActor(actor), action: "link_claims", claimId, detail: { other: other.reference } });
    await appendAudit(db, { actor: auditActor(actor), action: "link_claims", claimId: other.id, detail: { other: claim.reference } });
    return { ok: true };
  });
}

export type UnlinkClaimsResult = { ok: true } | Refusal | { ok: false; reason: "not-found" };

/** Takes a link between two claims away again. */
export async function unlinkClaims(actor: StaffActor, claimId: string, otherId: string): Promise<UnlinkClaimsResult> {
  const refused = await refuse(actor, "link or merge claims", claimId);
  if (refused) return refused;
  const [claim, other] = await Promise.all([findClaimToActOn(claimId), findClaimToActOn(otherId)]);
  if (!claim || !other) return { ok: false, reason: "not-found" };
  return inTransaction(async (db) => {
    if (!(await deleteLink(db, claimId, otherId))) return { ok: false, reason: "not-found" };
    await appendAudit(db, { actor: auditActor(actor), action: "unlink_claims", claimId, detail: { other: other.reference } });
    await appendAudit(db, { actor: auditActor(actor), action: "unlink_claims", claimId: otherId, detail: { other: claim.reference } });
    return { ok: true };
  });
}
