import { IMPORT_FIELDS } from "./fields";
import type { ImportKind } from "./kinds";
import type { ColumnOfField } from "./match-columns";
import { type FoundInRow, type RowReading, readRow } from "./read-row";

export interface PreviewRow {
  line: number;
  /** Of each field that has a column: as it will be kept, and what is wrong with it. */
  cells: readonly { field: string; value: string | null; typed: string; found: FoundInRow | null }[];
  /** What is wrong with the row as a whole. */
  found: FoundInRow | null;
}

/** A row as it will be read, beside what stands in the file. */
export function previewRow(kind: ImportKind, { line, cells }: { line: number; cells: readonly string[] }, reading: RowReading): PreviewRow {
  const { values, problems } = readRow(kind, cells, reading);
  const fields = IMPORT_FIELDS[kind].filter(({ key }) => (reading.columns[key] ?? null) !== null);
  return {
    line,
    cells: fields.map(({ key }) => ({ field: key, value: values[key] ?? null, typed: cells[reading.columns[key] ?? -1] ?? "", found: problems.find(({ field }) => field === key) ?? null })),
    found: problems.find(({ field }) => field === "") ?? null,
  };
}

/** The fields that a file must tell and no column is matched to. */
export function fieldsMissing(kind: ImportKind, columns: ColumnOfField): readonly string[] {
  return IMPORT_FIELDS[kind].filter(({ key, isRequired }) => isRequired && (columns[key] ?? null) === null).map(({ key }) => key);
}
