import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn, listDeskPeople, updateAssignee } from "@/lib/data/claims-for-staff";
import { inTransaction } from "@/lib/data/client";
import { moveClaim } from "@/lib/data/move-claim";
import { auditActor, type Refusal, refuse } from "./refusal";

export type TakeClaimResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "unknown-person" | "taken-meanwhile" };

/**
 * Gives a claim to a person of the desk, oneself included, or to nobody. A claim that nobody had taken up moves into
 * review.
 *
 * @param from who had it on the page: when it changed hands meanwhile nothing happens
 * @param note a word along for whoever has it next
 */
export async function takeClaim(actor: StaffActor, claimId: string, { from, to, note = "" }: { from: string | null; to: string | null; note?: string }): Promise<TakeClaimResult> {
  const refused = await refuse(actor, "record a finding", claimId);
  if (refused) return refused;
  const claim = await findClaimToActOn(claimId);
  if (!claim) return { ok: false, reason: "not-found" };
  if (to !== null && !(await listDeskPeople()).some(({ id }) => id === to)) return { ok: false, reason: "unknown-person" };
  if (from === to) return { ok: true };
  return inTransaction(async (db) => {
    if (!(await updateAssignee(db, claimId, from, to))) return { ok: false, reason: "taken-meanwhile" };
    await appendAudit(db, { actor: auditActor(actor), action: "hand_over", claimId, detail: { to, ...(note ? { reason: note } : {}) } });
    if (to !== null && claim.stage === "filed") await moveClaim(db, claimId, "take_up", { actor: auditActor(actor) });
    return { ok: true };
  });
}
