import "server-only";
import { stringify } from "csv-stringify/sync";
import type { FileTable } from "./table";

/**
 * How every CSV file of ours is written: UTF-8 with the mark that spreadsheets look for, no text that they would take for a
 * formula, and text of several lines in quotation marks, which the writer gives only to its own ends of lines.
 */
const CSV_STYLE = { bom: true, escape_formulas: true, record_delimiter: "windows", quoted_match: /[\r\n]/ } as const;

/**
 * A table as a CSV file for a spreadsheet: a header line, then one line a row. A text that a spreadsheet would take for a
 * formula gets an apostrophe in front; a number stays one.
 */
export function csvFile({ columns, rows }: FileTable): string {
  return stringify([...rows], { header: true, columns, ...CSV_STYLE });
}
