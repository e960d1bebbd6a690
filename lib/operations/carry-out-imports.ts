import "server-only";
import type { Readable } from "node:stream";
import { appendAudit } from "@/lib/data/audit";
import { type Db, inTransaction } from "@/lib/data/client";
import { beginImport, endImport, type ImportKept, lockImports, nextImport, noteProgress } from "@/lib/data/imports";
import { fitmentsImport, type KindOfImport, kitsImport, suppliersImport, turboModelsImport, vehiclesImport } from "@/lib/data/imports-catalogue";
import { shipmentsImport } from "@/lib/data/imports-shipments";
import { countStaged, createStaging, keepProblems, refuseDifferences, type StagedProblem, type StagedRow, stageRows } from "@/lib/data/imports-staging";
import { loadSettings } from "@/lib/data/settings";
import type { ImportKind, ImportReason } from "@/lib/domain/imports/kinds";
import { readRow } from "@/lib/domain/imports/read-row";
import { BrokenCsv, readCsv } from "@/lib/files/csv-reading";
import { readObject } from "@/lib/files/store";
import { todayIn } from "./import-today";

const KINDS: Readonly<Record<ImportKind, KindOfImport>> = {
  suppliers: suppliersImport,
  turbo_models: turboModelsImport,
  kits: kitsImport,
  vehicles: vehiclesImport,
  fitments: fitmentsImport,
  shipments: shipmentsImport,
};

const ROWS_AT_ONCE = 2_000;
/** A file takes a minute; after this it is given up rather than left to hold its place. */
const LONGEST_MS = 15 * 60_000;
/** A worker that died, not a file, is to blame for the first two. */
const MOST_ATTEMPTS = 3;

type Outcome = "done" | "refused" | "failed" | "withdrawn" | "none" | "busy";

/**
 * Brings in the files that wait, one after the other, and those that a worker began and did not end. The worker's.
 *
 * @returns how many came to an end; where another worker is at it, none
 */
export async function carryOutImports(now: () => Date = () => new Date()): Promise<number> {
  for (let ended = 0; ; ended += 1) {
    const outcome = await carryOutNext(now);
    if (outcome === "none" || outcome === "busy") return ended;
  }
}

/**
 * Brings in one file in one transaction, from reading to the audit line: all of it is kept or nothing, wherever the worker
 * dies. How far it is gets noted outside of it, for everybody to see; the rows themselves lie in temporary tables.
 */
async function carryOutNext(now: () => Date): Promise<Outcome> {
  return inTransaction(async (db): Promise<Outcome> => {
    if (!(await lockImports(db))) return "busy";
    const file = await nextImport(db);
    if (!file) return "none";
    if (file.attempts >= MOST_ATTEMPTS) return end(db, file, now(), { state: "failed", reason: "interrupted" });
    return (await beginImport(file.id)) ? bringIn(db, file, now) : "withdrawn";
  }, LONGEST_MS);
}

async function bringIn(db: Db, file: ImportKept, now: () => Date): Promise<Outcome> {
  const { id, kind, reading } = file;
  const content = file.storageKey === null ? null : await readObject(file.storageKey);
  if (!content) return end(db, file, now(), { state: "failed", reason: "file-gone" });
  const read = await stageFile(db, file, content, todayIn((await loadSettings(db)).timeZone, now()));
  if (!read.ok) return end(db, file, now(), { state: "refused", rows: read.rows, reason: read.reason });
  const { rows, bytesRead, headings } = read;

  await noteProgress(id, { phase: "checking", bytesRead, rows });
  await KINDS[kind].check(db);
  if (reading.changed === "refuse") await refuseDifferences(db);
  const { faulty, added, changed, rows: sound } = await countStaged(db);
  const headingOf = Object.fromEntries(Object.entries(reading.columns).flatMap(([field, column]) => (column === null ? [] : [[field, headings[column] ?? ""]])));
  if (faulty > 0) {
    await keepProblems(db, id, "staged_problem", headingOf);
    return end(db, file, now(), { state: "refused", rows, faulty });
  }
  await noteProgress(id, { phase: "writing", bytesRead, rows });
  await KINDS[kind].write(db);
  await keepProblems(db, id, "staged_difference", headingOf);
  return end(db, file, now(), { state: "done", rows, added, changed, alreadyThere: sound - added - changed });
}

type StagedFile = { ok: true; rows: number; bytesRead: number; headings: readonly string[] } | { ok: false; rows: number; reason: ImportReason };

/** Reads the rows of a file into the temporary tables, some thousand at a time. */
async function stageFile(db: Db, { id, kind, reading }: ImportKept, content: Readable, today: string): Promise<StagedFile> {
  await createStaging(db, kind);
  let bytesRead = 0;
  let rows = 0;
  let headings: readonly string[] | null = null;
  let sound: StagedRow[] = [];
  let found: StagedProblem[] = [];
  const stage = async () => {
    await stageRows(db, sound, found);
    sound = [];
    found = [];
    await noteProgress(id, { phase: "reading", bytesRead, rows });
  };
  try {
    for await (const { line, cells } of readCsv(content, reading, (count) => (bytesRead += count))) {
      if (headings === null) {
        headings = cells;
        continue;
      }
      rows += 1;
      const { values, problems } = readRow(kind, cells, { ...reading, width: headings.length, today });
      if (problems.length > 0) found.push(...problems.map((problem) => ({ line, ...problem })));
      else sound.push({ line, values });
      if (rows % ROWS_AT_ONCE === 0) await stage();
    }
  } catch (error) {
    if (error instanceof BrokenCsv) return { ok: false, rows, reason: error.reason };
    throw error;
  }
  await stage();
  return headings === null || rows === 0 ? { ok: false, rows, reason: "no-rows" } : { ok: true, rows, bytesRead, headings };
}

type End = { state: "done" | "refused" | "failed"; reason?: ImportReason } & Partial<Pick<ImportKept, "rows" | "faulty" | "added" | "changed" | "alreadyThere">>;

async function end(db: Db, { id, kind, startedBy }: ImportKept, now: Date, how: End): Promise<Outcome> {
  await endImport(db, id, { now, ...how });
  await appendAudit(db, { actor: startedBy ? { kind: "staff", personId: startedBy.id } : { kind: "system" }, action: "end_import", detail: { importId: id, kind, ...how } });
  return how.state;
}
