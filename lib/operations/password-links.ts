import "server-only";
import { hashSecret, newSecret } from "@/lib/access/secrets";
import type { Db } from "@/lib/data/client";
import { queueMail } from "@/lib/data/outgoing-mail";
import { insertPersonKey } from "@/lib/data/people";
import { loadSettings } from "@/lib/data/settings";
import { env } from "@/lib/env";
import { invitationMail, newPasswordMail } from "@/lib/mail/people-mails";

const HOURS = 72;

/**
 * Mails a one-time link to choose a password, in the transaction of what calls for it; links sent before stop working.
 * Part of other operations, which have checked who asks.
 */
export async function mailPasswordLink(db: Db, person: { id: string; name: string; email: string }, why: "invitation" | "new-password", now: Date): Promise<void> {
  const key = newSecret();
  const hash = hashSecret(key);
  await insertPersonKey(db, { personId: person.id, hash, expiresAt: new Date(now.getTime() + HOURS * 3_600_000) });
  const compose = why === "invitation" ? invitationMail : newPasswordMail;
  const mail = compose({ name: person.name, link: `${env.APP_ORIGIN}/sign-in/set-password?key=${key}`, hours: HOURS, seller: await loadSettings(db) });
  await queueMail(db, { onceKey: `password-link:${hash}`, to: { name: person.name, address: person.email }, ...mail });
}
