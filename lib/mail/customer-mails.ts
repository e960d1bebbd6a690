import "server-only";
import { type ComposedMail, composeMail } from "./compose";

interface Seller {
  name: string;
  phone: string;
}

const signature = ({ name, phone }: Seller) => [name, ...(phone ? [phone] : [])];

/** To the customer when a claim is filed: the receipt. */
export function filedMail(facts: { name: string; reference: string; link: string; promisedBy: string; stopsEngine: boolean; seller: Seller }): ComposedMail {
  return composeMail({
    subject: `Your complaint ${facts.reference}`,
    greeting: `Dear ${facts.name},`,
    paragraphs: [
      `we have your complaint. Its reference is ${facts.reference}.`,
      ...(facts.stopsEngine ? ["Do not run the engine until we have answered. The page behind the link says why."] : []),
      `We look at what you told us and write to you by ${facts.promisedBy}. A person decides every complaint.`,
      "On your private page you can read the first advice, add photos, write to us and answer our questions. The link opens once; the page asks you to press a button. If it has run out, ask for a new one on our first page with the reference and your e-mail address.",
    ],
    link: { label: "Open your complaint", url: facts.link },
    signature: signature(facts.seller),
  });
}

/** To the customer who asks for a new link to a filed claim. */
export function claimLinkMail(facts: { name: string; reference: string; link: string; seller: Seller }): ComposedMail {
  return composeMail({
    subject: `Link to your complaint ${facts.reference}`,
    greeting: `Dear ${facts.name},`,
    paragraphs: ["here is the link to your complaint that was just asked for. It opens once.", "If it was not you who asked, you need do nothing: without this mail nobody can open it."],
    link: { label: "Open your complaint", url: facts.link },
    signature: signature(facts.seller),
  });
}

/** To whoever writes a complaint and wants to go on later or elsewhere. */
export function draftLinkMail(facts: { link: string; until: string; seller: Seller }): ComposedMail {
  return composeMail({
    subject: "Go on with your complaint",
    greeting: "Good day,",
    paragraphs: [`here is the link to go on with the complaint you began. It is kept until ${facts.until} and is not sent to us before you send it. The link opens once.`],
    link: { label: "Go on", url: facts.link },
    signature: signature(facts.seller),
  });
}
