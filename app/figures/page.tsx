import type { Metadata } from "next";
import Link from "next/link";
import { forbidden } from "next/navigation";
import { DeskShell } from "@/app/_desk/desk-shell";
import { requireStaff } from "@/lib/access/staff";
import { IMPORT_KIND_NAMES, IMPORT_KINDS, type ImportKind } from "@/lib/domain/imports/kinds";
import { IMPORT_FILE_DAYS } from "@/lib/domain/imports/reading";
import { loadImports } from "@/lib/operations/load-import";
import styles from "./figures.module.css";
import { importInWords, sizeInWords, timeInWords } from "./import-words";
import { UploadForm } from "./upload-form";
import { uploadProblem } from "./upload-problems";

export const metadata: Metadata = { title: "Figures" };

export default async function FiguresPage({ searchParams }: { searchParams: Promise<{ problem?: string | string[] }> }) {
  const actor = await requireStaff("/figures");
  const loaded = await loadImports(actor);
  if (!loaded.ok) forbidden();
  const { imports, timeZone } = loaded;
  const waiting = imports.filter(({ state }) => state === "uploaded").length;
  const atWork = imports.filter(({ state }) => state === "queued" || state === "running").length;
  return (
    <DeskShell actor={actor} here="Figures">
      <h1>
        {atWork > 0
          ? `${atWork === 1 ? "One file is" : `${atWork} files are`} being brought in`
          : waiting > 0
            ? `${waiting === 1 ? "One file waits" : `${waiting} files wait`} for you to look at ${waiting === 1 ? "its" : "their"} first rows`
            : imports.length > 0
              ? "Every file has come to its end"
              : "No figures have been brought in yet"}
      </h1>
      <div className={styles.split}>
        <section className="sheet">
          <h2>Bring in a file</h2>
          <UploadForm problem={uploadProblem((await searchParams).problem)} />
        </section>
        <section className="sheet">
          <h2>What a file looks like</h2>
          <p>One heading line, one row for each thing. Take a sample, put your rows below its headings, and save it as CSV. Other headings, separators and orders of columns are recognised, and you can correct what is not.</p>
          <ol className={styles.kinds}>
            {IMPORT_KINDS.map((kind) => (
              <li key={kind}>
                {IMPORT_KIND_NAMES[kind]}: sample as <FileLinks what="sample" kind={kind} />
                {kind === "shipments" ? null : (
                  <>
                    ; what is kept as <FileLinks what="catalogue" kind={kind} />
                  </>
                )}
              </li>
            ))}
          </ol>
          <p className="small soft">In this order: each builds on those before it. A file is taken in whole or not at all, and a file that is sent twice adds nothing the second time. A kit without a unit is known by its order, kit and day.</p>
        </section>
      </div>
      {imports.length > 0 ? (
        <section className="sheet">
          <h2>What came in</h2>
          <div className="table-region stacks">
            <table>
              <thead>
                <tr>
                  <th scope="col">File</th>
                  <th scope="col">Holds</th>
                  <th scope="col">What came of it</th>
                  <th scope="col">Sent by</th>
                  <th scope="col">When</th>
                </tr>
              </thead>
              <tbody>
                {imports.map((file) => (
                  <tr key={file.id}>
                    <th scope="row">
                      <Link href={`/figures/${file.id}`}>{file.fileName}</Link> <span className="small soft">{sizeInWords(file.bytes)}</span>
                    </th>
                    <td>{IMPORT_KIND_NAMES[file.kind]}</td>
                    <td>{importInWords(file)}</td>
                    <td>{file.uploadedBy}</td>
                    <td className="num">
                      <time dateTime={file.uploadedAt.toISOString()}>{timeInWords(file.uploadedAt, timeZone)}</time>
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          <p className="small soft">Shipments name customers, so each file and what was wrong with its rows is kept for {IMPORT_FILE_DAYS} days and then removed; this list stays.</p>
        </section>
      ) : null}
    </DeskShell>
  );
}

/** The same table in both formats. */
function FileLinks({ what, kind }: { what: "sample" | "catalogue"; kind: ImportKind }) {
  const link = (format: "csv" | "xlsx") => (
    <a href={`/api/figures/${what}?kind=${kind}&format=${format}`} download>
      {format.toUpperCase()}
      <span className="visually-hidden">
        , {what === "sample" ? "sample of" : "kept"} {IMPORT_KIND_NAMES[kind]}
      </span>
    </a>
  );
  return (
    <>
      {link("csv")} or {link("xlsx")}
    </>
  );
}
