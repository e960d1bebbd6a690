import "server-only";
import { hashSecret } from "@/lib/access/secrets";
import { findClaimByContact } from "@/lib/data/claims-by-customer";
import { inTransaction } from "@/lib/data/client";
import { queueMail } from "@/lib/data/outgoing-mail";
import { countTry } from "@/lib/data/rate-limit";
import { loadSettings } from "@/lib/data/settings";
import type { Language } from "@/lib/domain/claims/languages";
import { parseReference } from "@/lib/domain/claims/reference";
import { claimLinkFields } from "@/lib/inputs/customer";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { claimLinkMail } from "@/lib/mail/customer-mails";
import { sayIn, wordsIn } from "@/lib/messages/words";
import { newClaimLink } from "./claim-links";

/** `ok` says that the question was taken, never whether there is such a claim. */
export type RequestClaimLinkResult = { ok: true } | { ok: false; reason: "refused"; messages: Record<string, string> } | { ok: false; reason: "too-many-tries" };

/** Mails a new one-time link to the address a claim was filed with. Open to anybody; the answer is the same for all. */
export async function requestClaimLink(form: FormData, caller: string, language: Language): Promise<RequestClaimLinkResult> {
  const fields = claimLinkFields(sayIn(language));
  const parsed = screenSchema(fields, sayIn(language)).safeParse(typedValues(fields, form));
  if (!parsed.success) return { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
  if (!(await countTry("link", caller))) return { ok: false, reason: "too-many-tries" };
  const reference = parseReference(parsed.data.reference ?? "");
  const claim = reference ? await findClaimByContact(reference, parsed.data.email ?? "") : null;
  if (!claim?.contactEmail) return { ok: true };
  // Counted by claim and by inbox too, so that none can be flooded; that much is not told.
  for (const counted of [claim.id, claim.contactEmail.toLowerCase()]) if (!(await countTry("link", counted))) return { ok: true };
  const seller = await loadSettings();
  const to = { name: claim.contactName ?? "", address: claim.contactEmail };
  await inTransaction(async (db) => {
    const link = await newClaimLink(db, claim, new Date());
    await queueMail(db, { onceKey: `claim-link:${hashSecret(link)}`, claimId: claim.id, to, ...claimLinkMail({ name: to.name, reference: claim.reference, link, seller }, wordsIn(claim.language)) });
  });
  return { ok: true };
}
