import "server-only";
import { csvFile } from "@/lib/files/csv";
import type { FileTable } from "@/lib/files/table";
import { MOST_SHEET_ROWS, xlsxFile } from "@/lib/files/xlsx";

export type FileFormat = "csv" | "xlsx";

const TYPES: Readonly<Record<FileFormat, string>> = {
  csv: "text/csv; charset=utf-8",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

/** The format an address asks for, CSV where it names none; null when there is none of that name. */
export function readFormat(request: Request): FileFormat | null {
  const format = new URL(request.url).searchParams.get("format") ?? "csv";
  return format === "csv" || format === "xlsx" ? format : null;
}

/** Headers of a file that is saved and not shown, and that no cache keeps. */
export function fileHeaders(name: string, contentType: string): Record<string, string> {
  return { "content-type": contentType, "content-disposition": `attachment; filename="${name}"`, "cache-control": "private, no-store" };
}

/** A table as a file to save. */
export async function fileAnswer(name: string, format: FileFormat, table: FileTable): Promise<Response> {
  if (format === "xlsx" && table.rows.length >= MOST_SHEET_ROWS) return plainAnswer(413, "There are more rows than a workbook holds. Take the CSV, or a shorter time.");
  const body = format === "csv" ? csvFile(table) : new Uint8Array(await xlsxFile(table));
  return new Response(body, { headers: fileHeaders(`${name}.${format}`, TYPES[format]) });
}

export function plainAnswer(status: number, message: string): Response {
  return new Response(`${message}\n`, { status, headers: { "content-type": "text/plain; charset=utf-8", "cache-control": "private, no-store" } });
}
