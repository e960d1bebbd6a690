import "server-only";
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
      `to decide your complaint ${reference} we need the turbo on our bench. Please send it so that it is here by ${until}.`,
      `Send it to:\n${seller.name}\n${seller.returnAddress}`,
      `Write the return number ${number} on the outside of the parcel. Without it we cannot tell whose unit it is.`,
      "Leave the unit as it came off: do not clean it, do not open it, and plug or tape the oil openings. Send the gaskets that were between the unit and its pipes along with it.",
      ...(note ? [note] : []),
      "Your page says how far it has come. The link opens once.",
    ],
    link: { label: "Open your complaint", url: link },
    signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
  });
}
