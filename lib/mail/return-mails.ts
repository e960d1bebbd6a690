import "server-only";
import type { PairUnit } from "@/lib/domain/claims/pair-units";
import { returnInstructions } from "@/lib/domain/claims/return-instructions";
import { sayIn, type Words } from "@/lib/messages/words";
import { type ComposedMail, composeMail } from "./compose";

export interface ReturnMailFacts {
  name: string;
  reference: string;
  number: string;
  /** The last day, in words of the customer's language. */
  until: string;
  link: string;
  seller: { name: string; phone: string; returnAddress: string };
}

function mail({ name, link, seller }: ReturnMailFacts, words: Words, subject: string, paragraphs: readonly string[]): ComposedMail {
  return composeMail(
    {
      subject,
      greeting: words("mail.greeting", { name }),
      paragraphs: [...paragraphs, words("mail.return.page")],
      link: { label: words("mail.open"), url: link },
      signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
    },
    words,
  );
}

/** To the customer who is to send the unit in. */
export function returnMail(facts: ReturnMailFacts & { note: string; pairUnit: PairUnit | null }, words: Words): ComposedMail {
  const { reference, number, until, note, pairUnit, seller } = facts;
  const { whereTo, steps } = returnInstructions({ number, sendBy: until, pairUnit, seller }, sayIn(words.language));
  return mail(facts, words, words("mail.return.subject", { number }), [words("mail.return.need", { reference }), whereTo, ...steps, words("sendIn.caution.text"), ...(note ? [note] : [])]);
}

/** To the customer whose time to send the unit is almost up. */
export function returnReminderMail(facts: ReturnMailFacts, words: Words): ComposedMail {
  const { reference, number, until } = facts;
  return mail(facts, words, words("sendIn.reminder.subject", { day: until, number }), [words("sendIn.reminder.text", { reference, day: until }), words("sendIn.reminder.sent")]);
}

/** To the customer whose unit did not come, or `isLost` on its way: nothing is lost for the complaint. */
export function returnEndedMail(facts: ReturnMailFacts & { isLost: boolean }, words: Words): ComposedMail {
  const { reference, number, until, isLost } = facts;
  const what = isLost ? words("sendIn.ended.lost", { number, reference }) : words("sendIn.ended.text", { day: until, reference });
  return mail(facts, words, words("sendIn.ended.subject", { number }), [what, words("sendIn.ended.still", { number })]);
}

/** To the customer who has more time to send the unit. */
export function returnProlongedMail(facts: ReturnMailFacts, words: Words): ComposedMail {
  const { reference, number, until } = facts;
  return mail(facts, words, words("sendIn.prolonged.subject", { number }), [words("sendIn.prolonged.text", { reference, day: until, number })]);
}
