import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { TitleBlock } from "@/app/_components/title-block";
import { DeskShell } from "@/app/_desk/desk-shell";
import { inZone } from "@/app/queue/times";
import { requireStaff } from "@/lib/access/staff";
import { loadMail } from "@/lib/operations/load-mail";
import { mailState } from "../mail-words";
import styles from "./mail.module.css";

export const metadata: Metadata = { title: "Mail" };

export default async function OneMailPage({ params }: { params: Promise<{ mailId: string }> }) {
  const { mailId } = await params;
  const actor = await requireStaff(`/mail/${mailId}`);
  const id = z.uuid().safeParse(mailId);
  const loaded = id.success ? await loadMail(actor, id.data) : null;
  if (loaded && !loaded.ok && loaded.reason === "not-allowed") forbidden();
  if (!loaded?.ok) notFound();
  const { language, subject, toName, toAddress, text, state, isGivenUp, createdAt, sentAt, lastError } = loaded.mail;
  const { time } = inZone(loaded.timeZone);
  return (
    <DeskShell actor={actor} here="Mail">
      <p>
        <Link href="/mail">All mail</Link>
      </p>
      <h1 lang={language ?? undefined}>{subject}</h1>
      <TitleBlock
        facts={[
          { name: "To", value: `${toName} ${toAddress}` },
          { name: "State", value: mailState({ state, isGivenUp }) },
          { name: "Written", value: time(createdAt) },
          { name: "Sent", value: sentAt ? time(sentAt) : "not yet" },
          ...(lastError ? [{ name: "What went wrong", value: lastError }] : []),
        ]}
      />
      <div className={`sheet ${styles.text}`} lang={language ?? undefined}>{withLinks(text)}</div>
    </DeskShell>
  );
}

/** Plain text in which addresses of pages can be followed. They stay plain links: fetching one ahead would be opening it. */
function withLinks(text: string) {
  return text.split(/(https?:\/\/\S+)/).map((part, index) =>
    index % 2 === 1 ? (
      // The parts of a fixed text keep their places.
      // biome-ignore lint/suspicious/noArrayIndexKey: see above
      <a key={index} href={part} rel="noreferrer">
        {part}
      </a>
    ) : (
      part
    ),
  );
}
