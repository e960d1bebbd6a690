import "server-only";
import type { Words } from "@/lib/messages/words";
import { type ComposedMail, composeMail } from "./compose";

interface Seller {
  name: string;
  phone: string;
}

const signature = ({ name, phone }: Seller) => [name, ...(phone ? [phone] : [])];

/** To the customer when a claim is filed: the receipt. */
export function filedMail(facts: { name: string; reference: string; link: string; promisedBy: string; stopsEngine: boolean; seller: Seller }, words: Words): ComposedMail {
  const { name, reference, link, promisedBy, stopsEngine, seller } = facts;
  return composeMail(
    {
      subject: words("mail.filed.subject", { reference }),
      greeting: words("mail.greeting", { name }),
      paragraphs: [
        words("mail.filed.received", { reference }),
        ...(stopsEngine ? [words("mail.filed.stop")] : []),
        words("mail.filed.promise", { day: promisedBy }),
        `${words("mail.filed.page")} ${words("mail.linkOnce")}`,
      ],
      link: { label: words("mail.open"), url: link },
      signature: signature(seller),
    },
    words,
  );
}

/** To the customer who asks for a new link to a filed claim. */
export function claimLinkMail({ name, reference, link, seller }: { name: string; reference: string; link: string; seller: Seller }, words: Words): ComposedMail {
  return composeMail(
    {
      subject: words("mail.claimLink.subject", { reference }),
      greeting: words("mail.greeting", { name }),
      paragraphs: [words("mail.claimLink.here"), words("mail.claimLink.notYou")],
      link: { label: words("mail.open"), url: link },
      signature: signature(seller),
    },
    words,
  );
}

/** To whoever writes a complaint and wants to go on later or elsewhere. */
export function draftLinkMail({ link, until, seller }: { link: string; until: string; seller: Seller }, words: Words): ComposedMail {
  return composeMail(
    {
      subject: words("mail.draftLink.subject"),
      greeting: words("mail.draftLink.greeting"),
      paragraphs: [words("mail.draftLink.here", { day: until })],
      link: { label: words("mail.draftLink.goOn"), url: link },
      signature: signature(seller),
    },
    words,
  );
}
