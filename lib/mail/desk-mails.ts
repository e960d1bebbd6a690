import "server-only";
import type { Words } from "@/lib/messages/words";
import { type ComposedMail, composeMail } from "./compose";

interface Facts {
  name: string;
  reference: string;
  link: string;
  seller: { name: string; phone: string };
}

const frame = ({ name, link, seller }: Facts, words: Words) => ({
  greeting: words("mail.greeting", { name }),
  link: { label: words("mail.answer"), url: link },
  signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
});

/** To the customer who is to look at something. */
export function checkAskedMail(facts: Facts & { question: string; why: string; note: string; cautions: readonly string[] }, words: Words): ComposedMail {
  return composeMail(
    {
      ...frame(facts, words),
      subject: words("mail.check.subject", { reference: facts.reference }),
      paragraphs: [words("mail.check.need"), [facts.question, facts.why].join(" "), ...(facts.note ? [facts.note] : []), ...facts.cautions, words("mail.check.cannotTell")],
    },
    words,
  );
}

/** To the customer: staff wrote a message. */
export function staffMessageMail(facts: Facts & { body: string }, words: Words): ComposedMail {
  return composeMail(
    { ...frame(facts, words), subject: words("mail.message.subject", { reference: facts.reference }), paragraphs: [words("mail.message.wrote"), facts.body, words("mail.message.howToAnswer")] },
    words,
  );
}

/** To the customer: the letter of a verdict, in full. It opens and ends as a letter by itself. */
export function verdictMail({ reference, letter, link }: { reference: string; letter: string; link: string }, words: Words): ComposedMail {
  const [greeting = "", ...paragraphs] = letter.split("\n\n");
  return composeMail(
    {
      subject: words("mail.verdict.subject", { reference }),
      greeting,
      paragraphs: paragraphs.slice(0, -1),
      link: { label: words("mail.open"), url: link },
      signature: (paragraphs.at(-1) ?? "").split("\n"),
    },
    words,
  );
}
