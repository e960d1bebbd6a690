import "server-only";
import { IMPORT_FIELDS } from "@/lib/domain/imports/fields";
import type { ImportKind } from "@/lib/domain/imports/kinds";
import { matchColumns } from "@/lib/domain/imports/match-columns";
import type { Delimiter, Encoding, ImportReading } from "@/lib/domain/imports/reading";
import { dateOrderOf } from "@/lib/domain/imports/read-value";
import { type CsvRow, delimiterOf, firstRows, startAsText, startOf } from "@/lib/files/csv-reading";
import { readObject } from "@/lib/files/store";

const START_BYTES = 262_144;
const ROWS_LOOKED_AT = 200;

/** The beginning of a file that was brought in as text, or null when the file is gone. */
export async function startOfImport({ storageKey, reading }: { storageKey: string | null; reading: Pick<ImportReading, "encoding"> }): Promise<string | null> {
  const file = storageKey === null ? null : await readObject(storageKey);
  if (!file) return null;
  const { start, isWhole } = await startOf(file, START_BYTES);
  return startAsText(start, reading.encoding, isWhole);
}

/** The heading line, and the first rows below it. */
export function headingsAndRows(text: string, delimiter: Delimiter, most: number): { headings: readonly string[]; rows: readonly CsvRow[] } {
  const [heading, ...rows] = firstRows(text, delimiter, most + 1);
  return { headings: heading?.cells.map((cell) => cell.trim()) ?? [], rows };
}

/**
 * How a file looks to be meant: columns by their headings, the order of dates by the first that tells. What is there
 * already stays as it is until somebody says otherwise.
 */
export function guessReading(kind: ImportKind, text: string, encoding: Encoding, delimiter = delimiterOf(text)): ImportReading {
  const { headings, rows } = headingsAndRows(text, delimiter, ROWS_LOOKED_AT);
  const columns = matchColumns(kind, headings);
  const dates = IMPORT_FIELDS[kind].filter(({ type }) => type === "date").flatMap(({ key }) => rows.map(({ cells }) => cells[columns[key] ?? -1] ?? ""));
  return { encoding, delimiter, columns, dateOrder: dateOrderOf(dates) ?? "day-month-year", changed: "refuse" };
}
