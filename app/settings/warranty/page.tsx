import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { dayInWords } from "@/lib/domain/warranty/calendar-day";
import { loadWarrantyTerms } from "@/lib/operations/warranty-terms";
import { beginDraft } from "./actions";
import { TermsSheet } from "./terms-sheet";
import styles from "./warranty.module.css";

export const metadata: Metadata = { title: "Warranty terms" };

const SAID: Readonly<Record<string, string>> = {
  "in-force": "In force. Units shipped from its first day on have these terms; the earlier ones stay for what shipped under them.",
  dropped: "The draft is thrown away.",
};

/** Every version of the terms, the newest in full, and the way to the next. */
export default async function WarrantyTermsPage({ searchParams }: { searchParams: Promise<{ said?: string }> }) {
  const actor = await requireStaff("/settings/warranty");
  const loaded = await loadWarrantyTerms(actor);
  if (!loaded.ok) forbidden();
  const { inForce, draft, kits, mayChange } = loaded;
  const [newest, ...earlier] = inForce;
  const said = SAID[(await searchParams).said ?? ""];
  return (
    <DeskShell actor={actor} here="Settings">
      <h1>{newest ? `Units shipped from ${dayInWords(newest.validFrom)} on have terms ${newest.number}` : "No warranty terms are in force yet"}</h1>
      {said ? (
        <p className="note" role="status">
          <strong>{said}</strong>
        </p>
      ) : null}
      <p>Each unit has the terms that were in force when it shipped. On a claim they are held against what is known, term by term; nothing follows from them by itself.</p>
      {mayChange ? (
        draft ? (
          <p>
            <Link className="button tight" href="/settings/warranty/draft">
              Go on with the draft of terms {draft.number}
            </Link>
          </p>
        ) : (
          <form action={beginDraft}>
            <button type="submit" className="button plain tight">
              {newest ? `Draft terms ${newest.number + 1} from these` : "Draft the first terms"}
            </button>
          </form>
        )
      ) : null}
      {newest ? (
        <section className="sheet" aria-labelledby="newest-heading">
          <h2 id="newest-heading">Terms {newest.number}</h2>
          <p className="small soft">{newest.change}</p>
          <TermsSheet document={newest.document} kitNames={new Map(kits.map(({ code, name }) => [code, name]))} />
        </section>
      ) : null}
      {earlier.length > 0 ? (
        <section aria-labelledby="earlier-heading" className={styles.earlier}>
          <h2 id="earlier-heading">Earlier terms</h2>
          <ul className={styles.versions}>
            {earlier.map(({ number, validFrom, change }) => (
              <li key={number}>
                <Link href={`/settings/warranty/${number}`}>Terms {number}</Link>, for units shipped from {dayInWords(validFrom)} on. <span className="small soft">{change}</span>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
    </DeskShell>
  );
}
