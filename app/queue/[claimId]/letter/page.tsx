import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { requireStaff } from "@/lib/access/staff";
import { LOCALES } from "@/lib/messages/dates";
import { addressLines, loadLetter } from "@/lib/operations/load-letter";
import css from "../claim.module.css";
import { subjectInWords } from "../photo-strip";
import sheet from "../verdict.module.css";

export const metadata: Metadata = { title: "Letter" };

/** The letter as it was sent, to read or to print on its own sheet. */
export default async function LetterPage({ params }: { params: Promise<{ claimId: string }> }) {
  const { claimId } = await params;
  if (!z.guid().safeParse(claimId).success) notFound();
  const letter = await loadLetter(await requireStaff(`/queue/${claimId}/letter`), claimId);
  if (!letter.ok) return letter.reason === "not-allowed" ? forbidden() : notFound();
  const { seller, language } = letter;
  // As its PDF has it: the whole sheet is in the language of whom it was sent to.
  const date = new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "long", timeZone: seller.timeZone }).format(letter.decidedAt);
  return (
    <main id="main" className="page">
      <p className="no-print">
        <Link href={`/queue/${claimId}`}>Back to the claim</Link> &nbsp; <a href={`/queue/${claimId}/letter/file`}>The letter as a PDF</a>
      </p>
      <article className="sheet">
        <h1 className="visually-hidden">
          Letter of <span lang={language}>{date}</span>
        </h1>
        <div className={css.letterHead} lang={language}>
          <strong className="letter">{seller.name}</strong>
          {`\n${addressLines(seller).join("\n")}\n\n${date}`}
        </div>
        <div className={css.letter} lang={language}>{letter.text}</div>
        {letter.photos.length > 0 ? (
          <div className={sheet.letterPhotos}>
            {letter.photos.map(({ id, subject }) => (
              <img key={id} src={`/queue/${claimId}/photos/${id}`} alt={subjectInWords(subject)} />
            ))}
          </div>
        ) : null}
      </article>
    </main>
  );
}
