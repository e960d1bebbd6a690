import "server-only";
import writeWorkbook from "write-excel-file/node";
import type { FileTable, TableValue } from "./table";

/** A cell of a workbook holds no more. */
const LONGEST_TEXT = 32_767;
const ISO_DAY = /^\d{4}-\d{2}-\d{2}$/;
/** A sheet holds no more lines. */
export const MOST_SHEET_ROWS = 1_048_576;

/**
 * A table as a workbook of one sheet, the header in bold and kept in sight. A text is written as text, so that one which
 * begins like a formula is never reckoned; a number stays one, and a day (2026-11-25) becomes one that sorts and groups.
 *
 * @throws when there are more rows than a sheet holds
 */
export async function xlsxFile({ columns, rows }: FileTable): Promise<Buffer> {
  if (rows.length >= MOST_SHEET_ROWS) throw new Error(`xlsxFile needs fewer than ${MOST_SHEET_ROWS} rows, not ${rows.length}`);
  const keys = Object.keys(columns);
  const header = keys.map((key) => ({ ...text(columns[key] ?? key), fontWeight: "bold" as const }));
  const sheet = [header, ...rows.map((row) => keys.map((key) => cell(row[key] ?? null)))];
  return writeWorkbook(sheet, { stickyRowsCount: 1, columns: keys.map((key) => ({ width: Math.max(10, (columns[key] ?? key).length + 2) })) }).toBuffer();
}

function cell(value: TableValue) {
  if (value === null) return null;
  if (typeof value === "number") return { value, type: Number };
  const day = ISO_DAY.test(value) ? new Date(`${value}T00:00:00Z`) : null;
  return day?.toJSON()?.startsWith(value) ? { value: day, type: Date, format: "yyyy-mm-dd" } : text(value);
}

function text(value: string) {
  // XML has no way to write these.
  const writable = value.replace(/[^\P{Cc}\t\n]|[\p{Cs}\uFFFE\uFFFF]/gu, "");
  return { value: writable.slice(0, LONGEST_TEXT), type: String };
}
