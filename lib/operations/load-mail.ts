import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { findMail, listMail } from "@/lib/data/outgoing-mail";
import { env } from "@/lib/env";
import { refuse, type Refusal } from "./refusal";

export type MailListed = Awaited<ReturnType<typeof listMail>>[number];

const NEWEST = 200;

/** The newest mails. In the demo everybody of staff may read them, since they go nowhere else. */
export async function loadMails(actor: StaffActor): Promise<{ ok: true; mails: readonly MailListed[] } | Refusal> {
  const refused = env.DEMO ? null : await refuse(actor, "see the mail");
  return refused ?? { ok: true, mails: await listMail(NEWEST) };
}

/** One mail, as its reader gets it. */
export async function loadMail(actor: StaffActor, mailId: string): Promise<{ ok: true; mail: MailListed } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = env.DEMO ? null : await refuse(actor, "see the mail");
  if (refused) return refused;
  const mail = await findMail(mailId);
  return mail ? { ok: true, mail } : { ok: false, reason: "not-found" };
}
