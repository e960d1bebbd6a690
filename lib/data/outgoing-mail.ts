import "server-only";
import type { Language } from "@/lib/domain/claims/languages";
import { type Db, database } from "./client";
import type { OutgoingMail } from "./generated/client";

export interface MailToQueue {
  /** Two mails with one key are one mail: `filed:<claimId>`. */
  onceKey: string;
  claimId?: string;
  to: { name: string; address: string };
  subject: string;
  text: string;
  html: string;
}

/** The worker waits e^n seconds after the n-th try, six hours at most: these tries take four days. */
const TRIES = 25;

/**
 * Queues a mail in the transaction that causes it, with the job that will send it: both are kept or neither.
 * A second mail with the same key is not queued, nor one to a customer who has no address: staff call those.
 *
 * @returns whether it was
 */
export async function queueMail(db: Db, mail: MailToQueue): Promise<boolean> {
  if (mail.to.address === "") return false;
  const [row] = await db.outgoingMail.createManyAndReturn({
    data: [
      {
        onceKey: mail.onceKey,
        claimId: mail.claimId ?? null,
        toName: mail.to.name,
        toAddress: mail.to.address,
        subject: mail.subject,
        text: mail.text,
        html: mail.html,
      },
    ],
    skipDuplicates: true,
    select: { id: true },
  });
  if (!row) return false;
  await db.$executeRaw`SELECT graphile_worker.add_job('send-mail', json_build_object('mailId', ${row.id}::text), job_key := ${`mail:${row.id}`}, max_attempts := ${TRIES})`;
  return true;
}

/** The mail to send, or null when it has gone out already or is unknown. */
export function findQueuedMail(mailId: string) {
  return database().outgoingMail.findFirst({ where: { id: mailId, state: { not: "sent" }, bouncedAt: null } });
}

/** @param kept the mail's words as they are kept from now on */
export async function markMailSent(mailId: string, kept: { text: string; html: string }): Promise<void> {
  await database().outgoingMail.update({ where: { id: mailId }, data: { ...kept, state: "sent", sentAt: new Date(), attempts: { increment: 1 }, lastError: null } });
}

export async function markMailFailed(mailId: string, lastError: string): Promise<void> {
  await database().outgoingMail.update({ where: { id: mailId }, data: { state: "failed", attempts: { increment: 1 }, lastError: lastError.slice(0, 500) } });
}

/**
 * A mail that a server refused for good, told at once or by a report later: there is no other try, and staff are shown it.
 *
 * @returns what it was about; null for a mail that is unknown, or known to have bounced
 */
export async function markMailBounced(db: Db, mailId: string, reason: string, now: Date): Promise<{ claimId: string | null } | null> {
  const [bounced] = await db.outgoingMail.updateManyAndReturn({
    where: { id: mailId, bouncedAt: null },
    data: { state: "failed", sentAt: null, bouncedAt: now, attempts: { increment: 1 }, lastError: reason.slice(0, 500) },
    select: { claimId: true },
  });
  return bounced ?? null;
}

/** Staff have reached the customer of a claim in another way; false when no mail of it had bounced. */
export async function markReached(db: Db, claimId: string, now: Date): Promise<boolean> {
  const { count } = await db.outgoingMail.updateMany({ where: { claimId, bouncedAt: { not: null }, reachedAt: null }, data: { reachedAt: now } });
  return count > 0;
}

/** The newest mail of a claim that bounced, unless the customer has been reached since. */
export function findBounce(claimId: string) {
  return database().outgoingMail.findFirst({ where: { claimId, bouncedAt: { not: null }, reachedAt: null }, orderBy: { bouncedAt: "desc" }, select: { toAddress: true, subject: true, bouncedAt: true, lastError: true } });
}

export type KeptMail = OutgoingMail & {
  /** That of the claim it is about; null where it is about none. */
  language: Language | null;
  /** Every try has failed, and there will be no other. */
  isGivenUp: boolean;
};

/**
 * The newest mails first, for the page that shows them.
 *
 * @param which those about claims, or all of them
 */
export async function listMail(which: "all" | { aboutClaimsOrTo: string }, limit: number): Promise<KeptMail[]> {
  return withTries(await database().outgoingMail.findMany({ where: which === "all" ? {} : { OR: [{ claimId: { not: null } }, { toAddress: which.aboutClaimsOrTo }] }, orderBy: { createdAt: "desc" }, take: limit, include: OF_CLAIM }));
}

export async function findMail(mailId: string): Promise<KeptMail | null> {
  const mail = await database().outgoingMail.findUnique({ where: { id: mailId }, include: OF_CLAIM });
  return mail && ((await withTries([mail]))[0] ?? null);
}

const OF_CLAIM = { claim: { select: { language: true } } } as const;

/** Whether there will be another try is known to the queue alone: it keeps the jobs that it has given up. */
async function withTries(mails: readonly (OutgoingMail & { claim: { language: Language } | null })[]): Promise<KeptMail[]> {
  const keys = mails.filter(({ state }) => state !== "sent").map(({ id }) => `mail:${id}`);
  const givenUp = await database().$queryRaw<{ key: string }[]>`
    SELECT "key" FROM graphile_worker.jobs WHERE "key" = ANY(${keys}) AND attempts >= max_attempts AND locked_at IS NULL`;
  return mails.map(({ claim, ...mail }) => ({ ...mail, language: claim?.language ?? null, isGivenUp: givenUp.some(({ key }) => key === `mail:${mail.id}`) }));
}

/**
 * Removes mail written before this time that was sent or has failed since, with the job of one that was given up.
 *
 * @returns how many
 */
export function deleteMailBefore(db: Db, before: Date): Promise<number> {
  return db.$executeRaw`
    WITH old AS (DELETE FROM outgoing_mail WHERE state <> 'queued' AND created_at < ${before} RETURNING id)
    SELECT graphile_worker.remove_job('mail:' || id) FROM old`;
}
