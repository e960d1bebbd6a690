import type { Metadata } from "next";
import Link from "next/link";
import { forbidden, notFound } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { TitleBlock } from "@/app/_components/title-block";
import { requireStaff } from "@/lib/access/staff";
import { IMPORT_KIND_NAMES } from "@/lib/domain/imports/kinds";
import { IMPORT_FILE_DAYS } from "@/lib/domain/imports/reading";
import { importIdSchema } from "@/lib/inputs/import";
import { loadImport } from "@/lib/operations/load-import";
import { takeBackHere } from "../actions";
import styles from "../figures.module.css";
import { importInWords, kindInWords, rowsInWords, sizeInWords, timeInWords } from "../import-words";
import { FirstRows } from "./first-rows";
import { Problems } from "./problems";
import { Progress } from "./progress";
import { ReadingForm } from "./reading-form";

export const metadata: Metadata = { title: "A file of figures" };

const lowerFirst = (sentence: string) => sentence.slice(0, 1).toLowerCase() + sentence.slice(1);

export default async function ImportPage({ params }: { params: Promise<{ importId: string }> }) {
  const id = importIdSchema.safeParse((await params).importId);
  if (!id.success) notFound();
  const actor = await requireStaff(`/figures/${id.data}`);
  const loaded = await loadImport(actor, id.data);
  if (!loaded.ok) return loaded.reason === "not-allowed" ? forbidden() : notFound();
  const { file, preview, problems, sameTakenInAt, timeZone } = loaded;
  const isAtWork = file.state === "queued" || file.state === "running";
  return (
    <DeskShell actor={actor} here="Figures">
      <div className={styles.page}>
        <p className="no-print">
          <Link href="/figures">All files</Link>
        </p>
        <h1>{file.state === "uploaded" ? `Look at how ${file.fileName} is read, then bring it in` : `${file.fileName}: ${lowerFirst(importInWords(file))}`}</h1>
        <TitleBlock
          facts={[
            { name: "File", value: `${file.fileName}, ${sizeInWords(file.bytes)}` },
            { name: "Holds", value: IMPORT_KIND_NAMES[file.kind] },
            { name: "Sent", value: `${timeInWords(file.uploadedAt, timeZone)}, ${file.uploadedBy}` },
            ...(file.startedBy ? [{ name: "Brought in by", value: file.startedBy.name }] : []),
            ...(file.finishedAt ? [{ name: "Ended", value: timeInWords(file.finishedAt, timeZone) }] : []),
          ]}
        />
        {isAtWork ? <Progress file={{ state: file.state, phase: file.phase, bytesRead: file.bytesRead, bytes: file.bytes, rows: file.rows }} here={`/figures/${file.id}`} /> : null}
        {file.state === "uploaded" && sameTakenInAt ? <p className="note">This very file was taken in on {timeInWords(sameTakenInAt, timeZone)}. Bringing it in again adds nothing that is there already.</p> : null}
        {file.state === "uploaded" && preview ? (
          <>
            <FirstRows kind={file.kind} rows={preview.rows} />
            <section className="sheet">
              <h2>How it is read</h2>
              <ReadingForm importId={file.id} kind={file.kind} reading={file.reading} headings={preview.headings} />
            </section>
          </>
        ) : null}
        {file.state === "uploaded" && !preview ? <p className="note">The file is no longer kept. Send it again.</p> : null}
        {file.state === "done" ? (
          <p className="note" role="status">
            {file.added + file.changed === 0 ? `Every one of the ${rowsInWords(file.rows)} was there already.` : `All ${rowsInWords(file.rows)} of ${kindInWords(file.kind)} are taken in.`}
            {file.kind === "shipments" ? " The reports know them within seconds, the intake knows them now." : ""}
          </p>
        ) : null}
        {file.state === "refused" || file.state === "failed" ? <p className="note">Nothing was changed. Correct the file and send it again: rows that are right lose nothing by it.</p> : null}
        {problems.length > 0 ? <Problems file={file} problems={problems} /> : null}
        <div className="acts no-print">
          {file.state === "uploaded" || file.state === "queued" ? (
            <form action={takeBackHere}>
              <input type="hidden" name="file" value={file.id} />
              <button type="submit" className="button tight plain">
                Take it back
              </button>
            </form>
          ) : null}
          {file.storageKey ? (
            <a className="button tight plain" href={`/api/figures/original?file=${file.id}`} download>
              The file as it was sent
            </a>
          ) : null}
        </div>
        <p className="small soft">{file.storageKey ? `The file and what is wrong with its rows are removed ${IMPORT_FILE_DAYS} days after it was sent.` : "The file has been removed, and what was wrong with its rows."}</p>
      </div>
    </DeskShell>
  );
}
