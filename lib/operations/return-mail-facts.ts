import "server-only";
import type { Db } from "@/lib/data/client";
import type { SellerSettings } from "@/lib/data/settings";
import type { Language } from "@/lib/domain/claims/languages";
import type { ReturnMailFacts } from "@/lib/mail/return-mails";
import { dayInWords } from "@/lib/messages/dates";
import { newClaimLink } from "./claim-links";

/** What every mail about a return tells, with a fresh link to the customer's page; in the mail's own transaction. */
export async function returnMailFacts(db: Db, claim: { id: string; reference: string; contactName: string | null; language: Language }, { number, expiresAt }: { number: string; expiresAt: Date }, seller: SellerSettings, now: Date): Promise<ReturnMailFacts> {
  return { name: claim.contactName ?? "", reference: claim.reference, number, until: dayInWords(expiresAt, claim.language, seller.timeZone), link: await newClaimLink(db, claim, now), seller };
}
