import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { inZone } from "@/app/queue/times";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { sourcesOf } from "@/lib/domain/diagnosis/provenance-words";
import { loadEditions } from "@/lib/operations/load-knowledge";
import { openDraftHere } from "./actions";
import { EditionList } from "./edition-list";
import css from "./knowledge.module.css";
import { UploadForm } from "./upload-form";

export const metadata: Metadata = { title: "Knowledge" };

export default async function KnowledgePage() {
  const actor = await requireStaff("/knowledge");
  const loaded = await loadEditions(actor);
  if (!loaded.ok) forbidden();
  const { inForce, editions, drafts, mayChange, timeZone } = loaded;
  const sources = sourcesOf(inForce);
  const count = (kind: string) => sources.filter((source) => source.kind === kind).reduce((sum, { figures }) => sum + figures, 0);
  const { time } = inZone(timeZone);
  const waiting = editions.filter(({ state }) => state === "proposed").length;
  return (
    <DeskShell actor={actor} here="Knowledge">
      <h1>{`Edition ${inForce.number} is in force${waiting > 0 ? `, and ${waiting === 1 ? "one waits" : `${waiting} wait`} to be decided` : ""}`}</h1>
      <p className={css.narrow}>
        It knows <Link href={`/knowledge/${inForce.number}`}>{`${inForce.causes.length} causes and ${inForce.findings.length} findings`}</Link>. Of its figures {count("learned")} are learned from verdicts, {count("published")} published, {count("common practice")} common practice
        and {count("judgement")} judgement; <Link href="/knowledge/learning">what verdicts have taught</Link> stands on a page of its own. Every claim is ranked with it from its next finding on, and keeps naming the edition it was ranked with.
      </p>
      <div className={css.sheets}>
        <section className="sheet" aria-labelledby="editions">
          <h2 id="editions">Editions</h2>
          <EditionList editions={editions} time={time} />
        </section>
        {mayChange ? (
          <section className="sheet" aria-labelledby="next">
            <h2 id="next">The next edition</h2>
            {drafts.length > 0 ? (
              <ul>
                {drafts.map(({ id, basisNumber, typed, updatedAt }) => (
                  <li key={id}>
                    <Link href={`/knowledge/drafts/${id}`}>Your draft on edition {basisNumber}</Link>, {Object.keys(typed).length === 1 ? "1 field" : `${Object.keys(typed).length} fields`} typed, last on {time(updatedAt)}
                  </li>
                ))}
              </ul>
            ) : null}
            {drafts.some(({ basisNumber }) => basisNumber === inForce.number) ? null : (
              <form action={openDraftHere.bind(null, inForce.number)}>
                <button type="submit" className="button tight">
                  Change edition {inForce.number} into a new one
                </button>
              </form>
            )}
            <details>
              <summary>Propose an edition from a file</summary>
              <UploadForm basis={inForce.number} />
            </details>
          </section>
        ) : null}
      </div>
    </DeskShell>
  );
}
