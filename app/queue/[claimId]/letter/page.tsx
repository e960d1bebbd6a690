import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { requireStaff } from "@/lib/access/staff";
import { loadLetter } from "@/lib/operations/load-letter";
import css from "../claim.module.css";

export const metadata: Metadata = { title: "Letter" };

/** The letter as it was sent, to read or to print on its own sheet. */
export default async function LetterPage({ params }: { params: Promise<{ claimId: string }> }) {
  const { claimId } = await params;
  if (!z.guid().safeParse(claimId).success) notFound();
  const letter = await loadLetter(await requireStaff(`/queue/${claimId}/letter`), claimId);
  if (!letter.ok) return letter.reason === "not-allowed" ? forbidden() : notFound();
  const { seller } = letter;
  const date = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: seller.timeZone }).format(letter.decidedAt);
  // The address of a parcel often begins with the name, which stands above.
  const address = seller.returnAddress.split("\n").filter((line) => line.trim() !== seller.name);
  return (
    <main id="main" className="page">
      <p className="no-print">
        <Link href={`/queue/${claimId}`}>Back to the claim</Link>
      </p>
      <article className="sheet">
        <h1 className="visually-hidden">Letter of {date}</h1>
        <div className={css.letterHead}>
          <strong className="letter">{seller.name}</strong>
          {`\n${[...address, seller.phone, seller.email].filter(Boolean).join("\n")}\n\n${date}`}
        </div>
        <div className={css.letter}>{letter.text}</div>
      </article>
    </main>
  );
}
