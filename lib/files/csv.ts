import "server-only";
import { stringify } from "csv-stringify/sync";

/**
 * Rows as a CSV file for a spreadsheet: a header line, then one line a row, UTF-8 with the mark that spreadsheets look
 * for. A text that a spreadsheet would take for a formula gets an apostrophe in front; a number stays one.
 *
 * @param columns name of each column, in order, by the key it has in the rows
 */
export function csvFile<Key extends string>(columns: Readonly<Record<Key, string>>, rows: readonly Readonly<Record<Key, string | number | null>>[]): string {
  return stringify([...rows], { header: true, columns, bom: true, escape_formulas: true, record_delimiter: "windows" });
}

/** A figure for a file: three decimals are more than it bears and few enough to read. */
export function rounded(value: number | undefined): number | null {
  return value === undefined ? null : Math.round(value * 1000) / 1000;
}
