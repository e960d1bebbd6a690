import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { inTransaction } from "@/lib/data/client";
import { lockClaim } from "@/lib/data/lock-claim";
import { findOpenReturn, updateReturn } from "@/lib/data/returns";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { senderFields } from "@/lib/inputs/send-in";
import { sayIn } from "@/lib/messages/words";

export type KeepSenderResult = { ok: true } | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "not-awaited" };

/** The customer says who stands on the label as its sender. */
export async function keepLabelSender(actor: CustomerActor, form: FormData): Promise<KeepSenderResult> {
  const say = sayIn(actor.language);
  const fields = senderFields(say);
  const parsed = screenSchema(fields, say).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const { name = "", street = "", postcode = "", place = "" } = parsed.data;
  const { claimId } = actor;
  return inTransaction(async (db): Promise<KeepSenderResult> => {
    await lockClaim(db, claimId);
    const open = await findOpenReturn(db, claimId);
    if (!open || open.receivedAt) return { ok: false, reason: "not-awaited" };
    await updateReturn(db, open.id, { senderName: name, senderStreet: street, senderPostcode: postcode, senderPlace: place });
    await appendAudit(db, { actor: { kind: "customer" }, action: "keep_label_sender", claimId });
    return { ok: true };
  });
}
