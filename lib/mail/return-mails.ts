import "server-only";
import { returnInstructions } from "@/lib/domain/claims/return-instructions";
import { type ComposedMail, composeMail } from "./compose";

/** To the customer who is to send the unit in. */
export function returnMail(facts: {
  name: string;
  reference: string;
  number: string;
  until: string;
  note: string;
  link: string;
  seller: { name: string; phone: string; returnAddress: string };
}): ComposedMail {
  const { name, reference, number, until, note, link, seller } = facts;
  return composeMail({
    subject: `Please send us the unit: return ${number}`,
    greeting: `Dear ${name},`,
    paragraphs: [
      `to decide your complaint ${reference} we need the turbo on our bench.`,
      ...returnInstructions({ number, sendBy: until, seller }),
      ...(note ? [note] : []),
      "Your page says how far it has come. The link opens once.",
    ],
    link: { label: "Open your complaint", url: link },
    signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
  });
}
