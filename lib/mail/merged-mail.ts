import "server-only";
import type { Language } from "@/lib/domain/claims/languages";
import { wordsIn } from "@/lib/messages/words";
import { type ComposedMail, composeMail } from "./compose";

/** To the customer whose complaint goes on with another about the same unit. The other's reference is named to nobody but its own customer. */
export function mergedMail({ name, reference, into, link, language, seller }: { name: string; reference: string; into: string | null; link: string; language: Language; seller: { name: string; phone: string } }): ComposedMail {
  const words = wordsIn(language);
  return composeMail({
    subject: words("merged.subject", { reference }),
    greeting: words("merged.greeting", { name }),
    paragraphs: [into ? words("merged.own", { into }) : words("merged.others"), words("merged.keep")],
    link: { label: words("merged.open"), url: link },
    signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
  });
}
