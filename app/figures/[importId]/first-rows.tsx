import { importField } from "@/lib/domain/imports/fields";
import type { ImportKind } from "@/lib/domain/imports/kinds";
import type { PreviewRow } from "@/lib/domain/imports/preview";
import { problemInWords } from "@/lib/domain/imports/problems";
import styles from "../figures.module.css";

const DAY = new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", day: "numeric", month: "long", year: "numeric" });

/** The first rows as they will be read: dates in words, numbers with a point, and beside what is read otherwise than it stands, what stands there. */
export function FirstRows({ kind, rows }: { kind: ImportKind; rows: readonly PreviewRow[] }) {
  const [first] = rows;
  const wrong = rows.filter(({ cells, found }) => found !== null || cells.some((cell) => cell.found !== null)).length;
  return (
    <section className="sheet" id="first-rows">
      <h2>{rows.length === 0 ? "There is no row below the headings" : wrong > 0 ? `${wrong} of the first ${rows.length} rows cannot be read so` : `The first ${rows.length === 1 ? "row" : `${rows.length} rows`} as they will be read`}</h2>
      {first && first.cells.length > 0 ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key.
        <section className="table-region" tabIndex={0} aria-label="The first rows">
          <table className={styles.preview}>
            <thead>
              <tr>
                <th scope="col">Line</th>
                {first.cells.map(({ field }) => (
                  <th scope="col" key={field}>
                    {importField(kind, field).name}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows.map(({ line, cells, found }) => (
                <tr key={line}>
                  <th scope="row">
                    {line}
                    {found ? <span className="error">{problemInWords(kind, { ...found, other: "" })}</span> : null}
                  </th>
                  {cells.map((cell) => (
                    <td key={cell.field}>
                      <Cell kind={kind} {...cell} />
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : (
        <p>{rows.length === 0 ? "Send a file that has some." : "No column could be matched by its heading. Say below which is which."}</p>
      )}
    </section>
  );
}

function Cell({ kind, field, value, typed, found }: { kind: ImportKind } & PreviewRow["cells"][number]) {
  if (found) {
    return (
      <>
        {typed}
        <span className={`error ${styles.found}`}>{problemInWords(kind, { ...found, other: "" })}</span>
      </>
    );
  }
  if (value === null) return <span className="soft">empty</span>;
  const shown = importField(kind, field).type === "date" ? DAY.format(new Date(value)) : value.replaceAll("_", " ");
  return (
    <>
      {shown}
      {shown.toLowerCase() === typed.trim().toLowerCase() ? null : <span className={styles.typed}>{typed}</span>}
    </>
  );
}
