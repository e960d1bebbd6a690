import "server-only";
import { type ComposedMail, composeMail } from "./compose";

interface Facts {
  name: string;
  link: string;
  hours: number;
  seller: { name: string; phone: string };
}

/** To somebody who was given a place at the desk. */
export function invitationMail({ name, link, hours, seller }: Facts): ComposedMail {
  return passwordMail(`Your place at the desk of ${seller.name}`, name, `you have been given a place at the desk of ${seller.name}. Choose a password and sign in.`, link, hours, seller);
}

/** To somebody of staff who needs a new password. */
export function newPasswordMail({ name, link, hours, seller }: Facts): ComposedMail {
  return passwordMail(`A new password for the desk of ${seller.name}`, name, "an administrator sends you this link to choose a new password. Until you do, the old one stays.", link, hours, seller);
}

function passwordMail(subject: string, name: string, opening: string, link: string, hours: number, seller: Facts["seller"]): ComposedMail {
  return composeMail({
    subject,
    greeting: `Dear ${name},`,
    paragraphs: [opening, `The link works once, within ${hours} hours.`],
    link: { label: "Choose a password", url: link },
    signature: [seller.name, ...(seller.phone ? [seller.phone] : [])],
  });
}
