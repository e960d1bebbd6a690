import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { findClaimForCustomer, insertCustomerMessage } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { countTry } from "@/lib/data/rate-limit";
import { MESSAGE_FIELDS } from "@/lib/inputs/customer";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";

export type WriteCustomerMessageResult = { ok: true } | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "not-filed" | "too-many-tries" };

/** The customer writes to staff about their own claim. The same words twice in a row are one message. */
export async function writeCustomerMessage(actor: CustomerActor, form: FormData): Promise<WriteCustomerMessageResult> {
  const parsed = screenSchema(MESSAGE_FIELDS).safeParse(typedValues(MESSAGE_FIELDS, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const claim = await findClaimForCustomer(actor.claimId);
  if (!claim) return { ok: false, reason: "not-filed" };
  const body = parsed.data.body ?? "";
  const last = claim.messages.at(-1);
  if (last?.from === "customer" && last.body === body) return { ok: true };
  if (!(await countTry("filing", actor.claimId))) return { ok: false, reason: "too-many-tries" };
  await inTransaction(async (db) => {
    await insertCustomerMessage(db, actor.claimId, body);
    await appendAudit(db, { actor: { kind: "customer" }, action: "write_message", claimId: actor.claimId });
  });
  return { ok: true };
}
