import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { appendAudit } from "@/lib/data/audit";
import { type Db, inTransaction } from "@/lib/data/client";
import { findImport, type ImportKept, queueImport, updateReading, withdrawImport } from "@/lib/data/imports";
import { fieldsMissing } from "@/lib/domain/imports/preview";
import type { WantedReading } from "@/lib/inputs/import";
import { guessReading, headingsAndRows, startOfImport } from "./read-import-start";
import { auditActor, type Refusal, refuse } from "./refusal";

export type ChangeReadingResult = { ok: true } | Refusal | { ok: false; reason: "not-found" | "not-waiting" | "file-gone" };
export type StartImportResult = ChangeReadingResult | { ok: false; reason: "fields-missing"; fields: readonly string[] } | { ok: false; reason: "no-rows" };

/** Says how a file is to be read, to look at its first rows again. With another separator its columns are matched anew. */
export async function changeReading(actor: StaffActor, importId: string, wanted: WantedReading): Promise<ChangeReadingResult> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  return withWaiting(importId, async (db, file, text) => {
    const { encoding, delimiter } = file.reading;
    const { columns, dateOrder } = wanted.delimiter === delimiter ? wanted : guessReading(file.kind, text, encoding, wanted.delimiter);
    return (await updateReading(db, importId, { ...wanted, encoding, columns, dateOrder })) ? { ok: true } : { ok: false, reason: "not-waiting" };
  });
}

/** Hands a file to the worker, to be read so: all of it is taken in or nothing. */
export async function startImport(actor: StaffActor, importId: string, wanted: WantedReading, now: Date = new Date()): Promise<StartImportResult> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  return withWaiting<StartImportResult>(importId, async (db, { kind, reading }, text) => {
    const { headings } = headingsAndRows(text, wanted.delimiter, 0);
    const columns = Object.fromEntries(Object.entries(wanted.columns).map(([field, column]) => [field, column !== null && column < headings.length ? column : null]));
    const missing = fieldsMissing(kind, columns);
    if (missing.length > 0) return { ok: false, reason: "fields-missing", fields: missing };
    if (text.trim().split(/[\r\n]+/, 2).length < 2) return { ok: false, reason: "no-rows" };
    if (!(await updateReading(db, importId, { ...wanted, encoding: reading.encoding, columns })) || !(await queueImport(db, importId, actor.personId, now))) return { ok: false, reason: "not-waiting" };
    await appendAudit(db, { actor: auditActor(actor), action: "start_import", detail: { importId, kind, changed: wanted.changed } });
    return { ok: true };
  });
}

/** Takes a file back before the worker has begun it. */
export async function takeBackImport(actor: StaffActor, importId: string, now: Date = new Date()): Promise<ChangeReadingResult> {
  const refused = await refuse(actor, "bring in figures");
  if (refused) return refused;
  return inTransaction(async (db): Promise<ChangeReadingResult> => {
    if (!(await findImport(importId, db))) return { ok: false, reason: "not-found" };
    if (!(await withdrawImport(db, importId, now))) return { ok: false, reason: "not-waiting" };
    await appendAudit(db, { actor: auditActor(actor), action: "take_back_import", detail: { importId } });
    return { ok: true };
  });
}

/** Finds a file that still waits for somebody, and the beginning of it. */
async function withWaiting<Result>(importId: string, work: (db: Db, file: ImportKept, text: string) => Promise<Result | ChangeReadingResult>): Promise<Result | ChangeReadingResult> {
  const file = await findImport(importId);
  if (!file) return { ok: false, reason: "not-found" };
  if (file.state !== "uploaded") return { ok: false, reason: "not-waiting" };
  const text = await startOfImport(file);
  if (text === null) return { ok: false, reason: "file-gone" };
  return inTransaction((db) => work(db, file, text));
}
