import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { database } from "@/lib/data/client";
import { findMail, type KeptMail, listMail } from "@/lib/data/outgoing-mail";
import { findPerson } from "@/lib/data/people";
import { loadSettings } from "@/lib/data/settings";
import { may } from "@/lib/domain/claims/permissions";
import { env } from "@/lib/env";
import { refuse, type Refusal } from "./refusal";

export type { KeptMail };

const NEWEST = 200;

/**
 * The newest mails. In the demo everybody of staff may read those about claims and those to themselves, since they go
 * nowhere else; the others hold links to set somebody's password.
 */
export async function loadMails(actor: StaffActor): Promise<{ ok: true; mails: readonly KeptMail[]; timeZone: string } | Refusal> {
  const refused = env.DEMO ? null : await refuse(actor, "see the mail");
  if (refused) return refused;
  const [mails, { timeZone }] = await Promise.all([listMail(may(actor.role, "see the mail") ? "all" : { aboutClaimsOrTo: await addressOf(actor) }, NEWEST), loadSettings()]);
  return { ok: true, mails, timeZone };
}

/** One mail, as its reader gets it. */
export async function loadMail(actor: StaffActor, mailId: string): Promise<{ ok: true; mail: KeptMail; timeZone: string } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = env.DEMO ? null : await refuse(actor, "see the mail");
  if (refused) return refused;
  const [mail, { timeZone }] = await Promise.all([findMail(mailId), loadSettings()]);
  const isShown = mail && (mail.claimId !== null || may(actor.role, "see the mail") || mail.toAddress === (await addressOf(actor)));
  return isShown ? { ok: true, mail, timeZone } : { ok: false, reason: "not-found" };
}

async function addressOf({ personId }: StaffActor): Promise<string> {
  const person = await findPerson(database(), personId);
  if (!person) throw new Error("addressOf needs somebody who is signed in");
  return person.email;
}
