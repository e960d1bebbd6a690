import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { endPresence, keepPresence, listPresent } from "@/lib/data/presence";
import { type Refusal, refuse } from "./refusal";

export type WhoElseResult = { ok: true; others: readonly string[] } | Refusal | { ok: false; reason: "not-found" };

/** The names of those who have a claim open now, beside who asks. */
export async function whoElseIsIn(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<WhoElseResult> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  return { ok: true, others: (await listPresent([claimId], actor.personId, now)).get(claimId) ?? [] };
}

/** A sign of life of an open page: who asks is in the claim from now on; who else is. It is no act, so no audit line tells of it. */
export async function beInClaim(actor: StaffActor, claimId: string, now: Date = new Date()): Promise<WhoElseResult> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  if (!(await findClaimToActOn(claimId))) return { ok: false, reason: "not-found" };
  await keepPresence(claimId, actor.personId, now);
  return { ok: true, others: (await listPresent([claimId], actor.personId, now)).get(claimId) ?? [] };
}

/** The page was left, or is out of sight. */
export async function leaveClaim(actor: StaffActor, claimId: string): Promise<{ ok: true } | Refusal> {
  const refused = await refuse(actor, "see a claim", claimId);
  if (refused) return refused;
  await endPresence(claimId, actor.personId);
  return { ok: true };
}
