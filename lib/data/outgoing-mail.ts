import "server-only";
import { type Db, database } from "./client";

export interface MailToQueue {
  /** Two mails with one key are one mail: `filed:<claimId>`. */
  onceKey: string;
  claimId?: string;
  to: { name: string; address: string };
  subject: string;
  text: string;
  html: string;
}

/**
 * Queues a mail in the transaction that causes it, with the job that will send it: both are kept or neither.
 * A second mail with the same key is not queued.
 */
export async function queueMail(db: Db, mail: MailToQueue): Promise<void> {
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
  if (!row) return;
  await db.$executeRaw`SELECT graphile_worker.add_job('send-mail', json_build_object('mailId', ${row.id}::text), job_key := ${`mail:${row.id}`}, max_attempts := 8)`;
}

/** The mail to send, or null when it has gone out already or is unknown. */
export function findQueuedMail(mailId: string) {
  return database().outgoingMail.findFirst({ where: { id: mailId, state: { not: "sent" } } });
}

export async function markMailSent(mailId: string): Promise<void> {
  await database().outgoingMail.update({ where: { id: mailId }, data: { state: "sent", sentAt: new Date(), attempts: { increment: 1 }, lastError: null } });
}

export async function markMailFailed(mailId: string, lastError: string): Promise<void> {
  await database().outgoingMail.update({ where: { id: mailId }, data: { state: "failed", attempts: { increment: 1 }, lastError: lastError.slice(0, 500) } });
}

/** The newest mails first, for the page that shows them. */
export function listMail(limit: number) {
  return database().outgoingMail.findMany({ orderBy: { createdAt: "desc" }, take: limit });
}

export function findMail(mailId: string) {
  return database().outgoingMail.findUnique({ where: { id: mailId } });
}
