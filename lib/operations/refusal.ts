import "server-only";
import type { Actor, StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { database } from "@/lib/data/client";
import { may, type Permission } from "@/lib/domain/claims/permissions";

/** Not this actor's to do. A stranger to an object gets `not-found` instead, the same as for what does not exist. */
export interface Refusal {
  ok: false;
  reason: "not-allowed";
}

/**
 * Whether a person may do a thing; a refusal is recorded. Every staff operation begins with it.
 *
 * @example const refused = await refuse(actor, "confirm a verdict", claimId); if (refused) return refused;
 */
export async function refuse(actor: StaffActor, permission: Permission, claimId?: string): Promise<Refusal | null> {
  if (may(actor.role, permission)) return null;
  // The trail points only at claims that there are: what was made up is refused like any other, not failed on.
  const isThere = claimId !== undefined && (await findClaimToActOn(claimId)) !== null;
  await appendAudit(database(), { actor: auditActor(actor), action: "refused", ...(isThere ? { claimId } : {}), detail: { permission } });
  return { ok: false, reason: "not-allowed" };
}

/** An actor as the audit trail names it. */
export function auditActor(actor: Actor): { kind: "customer" } | { kind: "staff"; personId: string } {
  return actor.kind === "staff" ? { kind: "staff", personId: actor.personId } : { kind: "customer" };
}
