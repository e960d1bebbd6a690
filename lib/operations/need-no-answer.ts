import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimToActOn } from "@/lib/data/claims-for-staff";
import { database } from "@/lib/data/client";
import { auditActor, type Refusal, refuse } from "./refusal";

export type NeedNoAnswerResult = { ok: true } | Refusal | { ok: false; reason: "not-found" };

/** What the customer wrote last needs no answer, a "thank you" say: the queue no longer marks it. */
export async function needNoAnswer(actor: StaffActor, claimId: string): Promise<NeedNoAnswerResult> {
  const refused = await refuse(actor, "write a message", claimId);
  if (refused) return refused;
  if (!(await findClaimToActOn(claimId))) return { ok: false, reason: "not-found" };
  await appendAudit(database(), { actor: auditActor(actor), action: "need_no_answer", claimId });
  return { ok: true };
}
