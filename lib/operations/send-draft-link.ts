import "server-only";
import type { CustomerActor } from "@/lib/access/actors";
import { DRAFT_DAYS } from "@/lib/domain/claims/key-days";
import { hashSecret } from "@/lib/access/secrets";
import { inTransaction } from "@/lib/data/client";
import { queueMail } from "@/lib/data/outgoing-mail";
import { countTry } from "@/lib/data/rate-limit";
import { loadSettings } from "@/lib/data/settings";
import { draftLinkFields } from "@/lib/inputs/customer";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { draftLinkMail } from "@/lib/mail/customer-mails";
import { dayInWords } from "@/lib/messages/dates";
import { sayIn, wordsIn } from "@/lib/messages/words";
import { newDraftLink } from "./claim-links";

export type SendDraftLinkResult = { ok: true } | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "too-many-tries" };

/** Mails a one-time link that goes on with the customer's own draft in another browser. */
export async function sendDraftLink(actor: CustomerActor, form: FormData, caller: string): Promise<SendDraftLinkResult> {
  const fields = draftLinkFields(sayIn(actor.language));
  const parsed = screenSchema(fields, sayIn(actor.language)).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  const address = parsed.data.email ?? "";
  for (const counted of [caller, actor.claimId, address.toLowerCase()]) if (!(await countTry("link", counted))) return { ok: false, reason: "too-many-tries" };
  const seller = await loadSettings();
  const now = new Date();
  await inTransaction(async (db) => {
    const link = await newDraftLink(db, actor.claimId, now);
    const until = dayInWords(now.getTime() + DRAFT_DAYS * 86_400_000, actor.language, seller.timeZone);
    await queueMail(db, { onceKey: `draft-link:${hashSecret(link)}`, claimId: actor.claimId, to: { name: address, address }, ...draftLinkMail({ link, until, seller }, wordsIn(actor.language)) });
  });
  return { ok: true };
}
