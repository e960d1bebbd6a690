import type { ImportKept, ImportProblemKept } from "@/lib/operations/load-import";
import { problemInWords } from "@/lib/domain/imports/problems";
import styles from "../figures.module.css";
import { rowsInWords } from "../import-words";

/** What is wrong with the rows and what to do about it, or what was changed; the first of it, and all as a file. */
export function Problems({ file, problems }: { file: ImportKept; problems: readonly ImportProblemKept[] }) {
  const isDone = file.state === "done";
  return (
    <section className="sheet">
      <h2>{isDone ? `${rowsInWords(file.changed)} changed what was there` : `${rowsInWords(file.faulty)} to correct`}</h2>
      <div className="table-region stacks">
        <table>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Column</th>
              <th scope="col">{isDone ? "Now" : "Says"}</th>
              <th scope="col">{isDone ? "Before" : "What to do"}</th>
            </tr>
          </thead>
          <tbody>
            {problems.map(({ line, column, value, ...told }) => (
              <tr key={`${line}-${told.field}-${told.problem}`}>
                <th scope="row">{line}</th>
                <td>{column || "the row"}</td>
                <td className={styles.value}>{value || <span className="soft">empty</span>}</td>
                <td>{isDone ? told.other || <span className="soft">empty</span> : problemInWords(file.kind, told)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <div className="acts no-print">
        <a className="button tight plain" href={`/api/figures/problems?file=${file.id}`} download>
          All of them as CSV
        </a>
        <a className="button tight plain" href={`/api/figures/problems?file=${file.id}&format=xlsx`} download>
          All of them as XLSX
        </a>
      </div>
    </section>
  );
}
