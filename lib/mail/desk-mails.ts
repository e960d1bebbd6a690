import "server-only";
import { type ComposedMail, composeMail } from "./compose";

interface Facts {
  name: string;
  reference: string;
  link: string;
  seller: { name: string; phone: string };
}

const frame = ({ name, link, seller }: Facts, label: string) => ({
  greeting: `Dear ${name},`,
  link: { label, url: link },
  signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
});

/** To the customer who is to look at something. */
export function checkAskedMail(facts: Facts & { question: string; why: string; note: string; cautions: readonly string[] }): ComposedMail {
  return composeMail({
    ...frame(facts, "Answer on your page"),
    subject: `One question about your complaint ${facts.reference}`,
    paragraphs: [
      "to go on with your complaint we need you to look at one thing.",
      [facts.question, facts.why].join(" "),
      ...(facts.note ? [facts.note] : []),
      ...facts.cautions,
      "If you cannot see it, say so: that is an answer too. Your page shows how to look. The link opens once.",
    ],
  });
}

/** To the customer: staff wrote a message. */
export function staffMessageMail(facts: Facts & { body: string }): ComposedMail {
  return composeMail({ ...frame(facts, "Answer on your page"), subject: `A message about your complaint ${facts.reference}`, paragraphs: ["we wrote to you about your complaint:", facts.body, "You can answer on your private page. The link opens once."] });
}

/** To the customer: the letter of a verdict, in full. It opens and ends as a letter by itself. */
export function verdictMail({ reference, letter, link }: { reference: string; letter: string; link: string }): ComposedMail {
  const [greeting = "", ...paragraphs] = letter.split("\n\n");
  return composeMail({
    subject: `Our answer to your complaint ${reference}`,
    greeting,
    paragraphs: paragraphs.slice(0, -1),
    link: { label: "Open your complaint", url: link },
    signature: (paragraphs.at(-1) ?? "").split("\n"),
  });
}
