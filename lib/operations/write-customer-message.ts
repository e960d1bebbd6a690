import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimForCustomer, insertCustomerMessage } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { isPostedAgain } from "@/lib/data/messages";
import { countTry } from "@/lib/data/rate-limit";
import { messageFields } from "@/lib/inputs/customer";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";
import { comeBackIfLapsed } from "./come-back";

export type WriteCustomerMessageResult = { ok: true } | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "not-filed" | "too-many-tries" };

/** The customer writes to staff about their own claim. The same words posted again are one message; a claim that had lapsed goes on. */
export async function writeCustomerMessage(actor: CustomerActor, form: FormData, now: Date = new Date()): Promise<WriteCustomerMessageResult> {
  const fields = messageFields(sayIn(actor.language));
  const parsed = screenSchema(fields, sayIn(actor.language)).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const { claimId } = actor;
  if (!(await findClaimForCustomer(claimId))) return { ok: false, reason: "not-filed" };
  const body = parsed.data.body ?? "";
  if (!(await countTry("filing", claimId))) return { ok: false, reason: "too-many-tries" };
  await inTransaction(async (db) => {
    await lockClaim(db, claimId);
    if (await isPostedAgain(db, { claimId, from: "customer", body }, now)) return;
    await insertCustomerMessage(db, claimId, body);
    await appendAudit(db, { actor: { kind: "customer" }, action: "write_message", claimId });
    await comeBackIfLapsed(db, claimId, now);
  });
  return { ok: true };
}
