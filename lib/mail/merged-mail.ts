import "server-only";
import type { Words } from "@/lib/messages/words";
import { type ComposedMail, composeMail } from "./compose";

/** To the customer whose complaint goes on with another about the same unit. The other's reference is named to nobody but its own customer. */
export function mergedMail({ name, reference, into, link, seller }: { name: string; reference: string; into: string | null; link: string; seller: { name: string; phone: string } }, words: Words): ComposedMail {
  return composeMail(
    {
      subject: words("merged.subject", { reference }),
      greeting: words("mail.greeting", { name }),
      paragraphs: [into ? words("merged.own", { into }) : words("merged.others"), `${words("merged.keep")} ${words("mail.linkOnce")}`],
      link: { label: words("mail.open"), url: link },
      signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
    },
    words,
  );
}
