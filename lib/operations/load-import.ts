import "server-only";
import type { Readable } from "node:stream";
import type { StaffActor } from "@/lib/access/actors";
import { findImport, findSameImport, type ImportKept, type ImportProblemKept, listImports, listProblems } from "@/lib/data/imports";
import { loadSettings } from "@/lib/data/settings";
import { problemInWords } from "@/lib/domain/imports/problems";
import { type PreviewRow, previewRow } from "@/lib/domain/imports/preview";
import { type FileTable, fileTable } from "@/lib/files/table";
import { readObject } from "@/lib/files/store";
import { todayIn } from "./import-today";
import { headingsAndRows, startOfImport } from "./read-import-start";
import { type Refusal, refuse } from "./refusal";

export type { ImportKept, ImportProblemKept } from "@/lib/data/imports";

const IMPORTS_SHOWN = 50;
const PREVIEW_ROWS = 8;
const PROBLEMS_SHOWN = 50;

export interface LoadedImport {
  ok: true;
  file: ImportKept;
  timeZone: string;
  /** The first rows as they will be read, while the file waits for somebody; null once the file is gone. */
  preview: { headings: readonly string[]; rows: readonly PreviewRow[] } | null;
  /** When the very same file was taken in, if it was. */
  sameTakenInAt: Date | null;
  /** The first of what was wrong, or of what was taken over. */
  problems: readonly ImportProblemKept[];
}

/** The files of figures that came in, the newest first. */
export async function loadImports(actor: StaffActor): Promise<{ ok: true; imports: readonly ImportKept[]; timeZone: string } | Refusal> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  const [imports, { timeZone }] = await Promise.all([listImports(IMPORTS_SHOWN), loadSettings()]);
  return { ok: true, imports, timeZone };
}

/** One file: how it will be read while it waits, how far it is, or what came of it. */
export async function loadImport(actor: StaffActor, importId: string): Promise<LoadedImport | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  const file = await findImport(importId);
  if (!file) return { ok: false, reason: "not-found" };
  const { timeZone } = await loadSettings();
  const [preview, sameTakenInAt, problems] = await Promise.all([
    file.state === "uploaded" ? previewOf(file, todayIn(timeZone)) : null,
    file.state === "uploaded" ? findSameImport(file) : null,
    file.state === "refused" || file.state === "done" ? listProblems(importId, PROBLEMS_SHOWN) : [],
  ]);
  return { ok: true, file, timeZone, preview, sameTakenInAt, problems };
}

async function previewOf(file: ImportKept, today: string): Promise<LoadedImport["preview"]> {
  const text = await startOfImport(file);
  if (text === null) return null;
  const { headings, rows } = headingsAndRows(text, file.reading.delimiter, PREVIEW_ROWS);
  return { headings, rows: rows.map((row) => previewRow(file.kind, row, { ...file.reading, width: headings.length, today })) };
}

const PROBLEM_COLUMNS = { line: "line", column: "column", value: "value", problem: "what is wrong and what to do" } as const;

/** What was wrong with the rows of a file, as a table to send back to whoever made it. */
export async function exportImportProblems(actor: StaffActor, importId: string): Promise<{ ok: true; table: FileTable } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  const file = await findImport(importId);
  if (!file) return { ok: false, reason: "not-found" };
  const problems = await listProblems(importId);
  const rows = problems.map(({ line, column, value, ...told }) => ({ line, column, value, problem: file.state === "done" ? `Changed; it was ${told.other || "empty"}` : problemInWords(file.kind, told) }));
  return { ok: true, table: fileTable(PROBLEM_COLUMNS, rows) };
}

/** The file itself as it was sent. */
export async function openImportFile(actor: StaffActor, importId: string): Promise<{ ok: true; fileName: string; content: Readable } | Refusal | { ok: false; reason: "not-found" }> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  const file = await findImport(importId);
  const content = file?.storageKey ? await readObject(file.storageKey) : null;
  return file && content ? { ok: true, fileName: file.fileName, content } : { ok: false, reason: "not-found" };
}
