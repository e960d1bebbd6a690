import "server-only";
import { type ComposedMail, composeMail } from "./compose";

/** To a product manager: what stands out for the first time, one sentence each. */
export function newSignalsMail({ name, signals, link, seller }: { name: string; signals: readonly string[]; link: string; seller: { name: string; phone: string } }): ComposedMail {
  const [first = ""] = signals;
  const isOne = signals.length === 1;
  return composeMail({
    subject: isOne ? `A new signal: ${first.split(":")[0]}` : `${signals.length} new signals`,
    greeting: `Dear ${name},`,
    paragraphs: [
      `${isOne ? "one part of the sales brings a cause" : `${signals.length} parts of the sales bring a cause each`} more often than all the rest leads to expect, beyond chance:`,
      ...signals.map((sentence) => `${sentence}.`),
      `${isOne ? "It stays" : "They stay"} on the list until somebody marks what was done. This mail comes once.`,
    ],
    link: { label: "See the signals", url: link },
    signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
  });
}
