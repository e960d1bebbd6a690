import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { env } from "@/lib/env";
import { loadMails } from "@/lib/operations/load-mail";
import { mailTime, STATE_NAMES } from "./mail-words";

export const metadata: Metadata = { title: "Mail" };

export default async function MailPage() {
  const actor = await requireStaff("/mail");
  const loaded = await loadMails(actor);
  if (!loaded.ok) forbidden();
  const { mails } = loaded;
  const failed = mails.filter(({ state }) => state === "failed").length;
  return (
    <DeskShell actor={actor} here="Mail">
      <h1>{mails.length === 0 ? "No mail has been written yet" : failed > 0 ? `${failed} of the newest ${mails.length} mails could not be sent` : "Every mail has gone out or is about to"}</h1>
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
              {mails.map(({ id, subject, toName, toAddress, state, createdAt }) => (
                <tr key={id}>
                  <th scope="row">
                    <Link href={`/mail/${id}`}>{subject}</Link>
                  </th>
                  <td>
                    {toName} <span className="small soft">{toAddress}</span>
                  </td>
                  <td>{STATE_NAMES[state]}</td>
                  <td className="num">
                    <time dateTime={createdAt.toISOString()}>{mailTime(createdAt)}</time>
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
