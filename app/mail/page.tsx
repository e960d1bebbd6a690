import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { inZone } from "@/app/queue/times";
import { requireStaff } from "@/lib/access/staff";
import { env } from "@/lib/env";
import { type KeptMail, loadMails } from "@/lib/operations/load-mail";
import { mailState } from "./mail-words";

export const metadata: Metadata = { title: "Mail" };

export default async function MailPage() {
  const actor = await requireStaff("/mail");
  const loaded = await loadMails(actor);
  if (!loaded.ok) forbidden();
  const { mails } = loaded;
  const { time } = inZone(loaded.timeZone);
  return (
    <DeskShell actor={actor} here="Mail">
      <h1>{headline(mails)}</h1>
      {env.DEMO && !env.SMTP_URL ? <p className="soft">In the demo mail goes into a folder and not to anybody. Read it here and follow its links.</p> : null}
      {mails.length === 0 ? null : (
        <div className="sheet table-region">
          <table>
            <thead>
              <tr>
                <th scope="col">Subject</th>
                <th scope="col">To</th>
                <th scope="col">State</th>
                <th scope="col" className="num">
                  Written
                </th>
              </tr>
            </thead>
            <tbody>
              {mails.map(({ id, subject, language, toName, toAddress, state, isGivenUp, createdAt }) => (
                <tr key={id}>
                  <th scope="row">
                    <Link href={`/mail/${id}`} lang={language ?? undefined}>
                      {subject}
                    </Link>
                  </th>
                  <td>
                    {toName} <span className="small soft">{toAddress}</span>
                  </td>
                  <td>{mailState({ state, isGivenUp })}</td>
                  <td className="num">
                    <time dateTime={createdAt.toISOString()}>{time(createdAt)}</time>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </DeskShell>
  );
}

function headline(mails: readonly KeptMail[]): string {
  if (mails.length === 0) return "No mail has been written yet";
  const givenUp = mails.filter(({ isGivenUp }) => isGivenUp).length;
  if (givenUp > 0) return `${givenUp} of the newest ${mails.length} mails could not be sent and will not be tried again`;
  const failed = mails.filter(({ state }) => state === "failed").length;
  return failed > 0 ? `${failed} of the newest ${mails.length} mails could not be sent yet and will be tried again` : "Every mail has gone out or is about to";
}
