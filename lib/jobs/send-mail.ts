import { withoutKeys } from "@/lib/access/secrets";
import { findQueuedMail, markMailFailed, markMailSent } from "@/lib/data/outgoing-mail";
import { loadSettings } from "@/lib/data/settings";
import { log } from "@/lib/log";
import { refusedForGood, sendMail } from "@/lib/mail/send";
import { noteBounce } from "@/lib/operations/note-bounce";
import { env } from "@/lib/env";

/**
 * Sends one queued mail, and keeps it without the keys of its links; in the demo it is read where it is kept. An address that the server refuses for good is not tried again. A crash between sending and marking repeats it with the same Message-ID.
 *
 * @throws what the transport threw otherwise, so that the queue tries again later
 */
export async function sendQueuedMail(mailId: string): Promise<void> {
  const mail = await findQueuedMail(mailId);
  if (!mail) return;
  const { name } = await loadSettings();
  try {
    await sendMail({
      id: mail.id,
      from: { name, address: env.MAIL_FROM },
      to: { name: mail.toName, address: mail.toAddress },
      subject: mail.subject,
      text: mail.text,
      html: mail.html,
    });
  } catch (error) {
    const refusal = refusedForGood(error);
    if (refusal !== null) {
      await noteBounce(mail.id, refusal);
      log.warn({ event: "mail-refused", mailId: mail.id, claimId: mail.claimId });
      return;
    }
    await markMailFailed(mail.id, error instanceof Error ? error.message : String(error));
    throw error;
  }
  const { text, html } = mail;
  await markMailSent(mail.id, env.DEMO ? { text, html } : { text: withoutKeys(text), html: withoutKeys(html) });
  log.info({ event: "mail-sent", mailId: mail.id, claimId: mail.claimId });
}
