import "server-only";
import type { Words } from "@/lib/messages/words";
import { type ComposedMail, composeMail } from "./compose";

interface Facts {
  name: string;
  reference: string;
  link: string;
  /** How many checks nobody has answered. */
  open: number;
  seller: { name: string; phone: string };
}

const frame = ({ name, link, seller }: Facts, words: Words) => ({
  greeting: words("mail.greeting", { name }),
  link: { label: words("mail.answer"), url: link },
  signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
});

/** To the customer who was asked to look at something and has not answered. */
export function reminderMail(facts: Facts, words: Words): ComposedMail {
  return composeMail(
    {
      ...frame(facts, words),
      subject: words("mail.reminder.subject", { reference: facts.reference }),
      paragraphs: [words("mail.reminder.open", { count: facts.open }), `${words("mail.reminder.cannotTell")} ${words("mail.linkOnce")}`],
    },
    words,
  );
}

/** To the same: on which day the complaint ends without an answer. */
export function lapseNoticeMail(facts: Facts & { lapsesOn: string }, words: Words): ComposedMail {
  const day = facts.lapsesOn;
  return composeMail(
    {
      ...frame(facts, words),
      subject: words("mail.reminder.noticeSubject", { reference: facts.reference, day }),
      paragraphs: [words("mail.reminder.open", { count: facts.open }), words("mail.reminder.notice", { day }), `${words("mail.reminder.cannotTell")} ${words("mail.linkOnce")}`],
    },
    words,
  );
}

/** To the same, on that day: it has ended, and an answer opens it again. */
export function lapsedMail(facts: Facts, words: Words): ComposedMail {
  return composeMail(
    {
      ...frame(facts, words),
      subject: words("mail.reminder.lapsedSubject", { reference: facts.reference }),
      paragraphs: [words("mail.reminder.lapsed"), `${words("mail.reminder.comeBack")} ${words("mail.linkOnce")}`],
    },
    words,
  );
}
