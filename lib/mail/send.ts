import "server-only";
import { mkdir, writeFile } from "node:fs/promises";
import path from "node:path";
import nodemailer from "nodemailer";
import { env, type Settings } from "@/lib/env";

export interface MailToSend {
  id: string;
  from: { name: string; address: string };
  to: { name: string; address: string };
  subject: string;
  text: string;
  html: string;
}

/**
 * Sends one mail: over SMTP where `SMTP_URL` is set, else into the mail folder as `<id>.eml`. A repeat carries the
 * same Message-ID, so that a transport that keeps count drops it.
 *
 * @throws when the transport refuses; the job tries again
 */
export async function sendMail(mail: MailToSend, settings: Pick<Settings, "SMTP_URL" | "MAIL_FOLDER" | "APP_ORIGIN"> = env): Promise<void> {
  const transport = settings.SMTP_URL
    ? nodemailer.createTransport(settings.SMTP_URL)
    : nodemailer.createTransport({ streamTransport: true, buffer: true, newline: "windows" });
  const sent = await transport.sendMail({
    messageId: `<${mail.id}@${new URL(settings.APP_ORIGIN).hostname}>`,
    // Address objects, never joined strings: no parser may choose the recipient.
    from: mail.from,
    to: mail.to,
    subject: mail.subject,
    text: mail.text,
    html: mail.html,
    headers: { "Auto-Submitted": "auto-generated" },
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  if ("message" in sent && Buffer.isBuffer(sent.message)) {
    await mkdir(settings.MAIL_FOLDER, { recursive: true });
    await writeFile(path.join(settings.MAIL_FOLDER, `${mail.id}.eml`), sent.message);
  }
}

/**
 * What the server said when it refused the recipient for good, or null where another try may succeed.
 *
 * Source: a 5yz reply to RCPT is permanent (RFC 5321, 4.2.1, from memory). Example: "550 5.1.1 unknown user".
 */
export function refusedForGood(error: unknown): string | null {
  if (!(error instanceof Error) || !("responseCode" in error) || !("command" in error)) return null;
  const { responseCode, command } = error;
  if (typeof responseCode !== "number" || responseCode < 500 || !String(command).startsWith("RCPT")) return null;
  return "response" in error && typeof error.response === "string" ? error.response : error.message;
}
