import "server-only";
import type { ImportKind, ImportReason, ImportState } from "@/lib/domain/imports/kinds";
import type { TellableProblem } from "@/lib/domain/imports/problems";
import type { ImportPhase } from "@/lib/domain/imports/progress";
import type { ImportReading } from "@/lib/domain/imports/reading";
import { type Db, database } from "./client";
import { discardObjects } from "./discarded-objects";
import type { Prisma } from "./generated/client";

export interface ImportKept {
  id: string;
  kind: ImportKind;
  state: ImportState;
  fileName: string;
  /** Null once the file has been removed. */
  storageKey: string | null;
  bytes: number;
  sha256: string;
  reading: ImportReading;
  uploadedAt: Date;
  uploadedBy: string;
  startedBy: { id: string; name: string } | null;
  finishedAt: Date | null;
  attempts: number;
  phase: ImportPhase | null;
  bytesRead: number;
  rows: number;
  added: number;
  changed: number;
  alreadyThere: number;
  /** Rows with something wrong. */
  faulty: number;
  reason: ImportReason | null;
}

const WITH_PEOPLE = { include: { uploadedBy: { select: { name: true } }, startedBy: { select: { id: true, name: true } } } } as const;

function importOf({ uploadedBy, ...row }: Prisma.ImportGetPayload<typeof WITH_PEOPLE>): ImportKept {
  // The three were written by this file, from these types.
  const { reading, phase, reason } = row as unknown as Pick<ImportKept, "reading" | "phase" | "reason">;
  return { ...row, reading, phase, reason, uploadedBy: uploadedBy.name };
}

const asJson = (reading: ImportReading) => ({ ...reading, columns: { ...reading.columns } }) satisfies Prisma.InputJsonObject;

export async function insertImport(db: Db, { reading, ...file }: Pick<ImportKept, "id" | "kind" | "fileName" | "bytes" | "sha256" | "reading"> & { storageKey: string; uploadedById: string }): Promise<void> {
  await db.import.create({ data: { ...file, reading: asJson(reading) } });
}

export async function findImport(id: string, db: Db = database()): Promise<ImportKept | null> {
  const row = await db.import.findUnique({ where: { id }, ...WITH_PEOPLE });
  return row && importOf(row);
}

/** The newest first. */
export async function listImports(limit: number): Promise<ImportKept[]> {
  return (await database().import.findMany({ orderBy: { uploadedAt: "desc" }, take: limit, ...WITH_PEOPLE })).map(importOf);
}

/** When the very same file was taken in last, if it was. */
export async function findSameImport({ id, kind, sha256 }: Pick<ImportKept, "id" | "kind" | "sha256">): Promise<Date | null> {
  const same = await database().import.findFirst({ where: { kind, sha256, state: "done", id: { not: id } }, orderBy: { finishedAt: "desc" }, select: { finishedAt: true } });
  return same?.finishedAt ?? null;
}

/** Says how a file is to be read, while nobody has begun to bring it in; false when somebody has. */
export async function updateReading(db: Db, id: string, reading: ImportReading): Promise<boolean> {
  return (await db.import.updateMany({ where: { id, state: "uploaded" }, data: { reading: asJson(reading) } })).count === 1;
}

/** Hands a file to the worker, with the job that wakes it; false when that was done before. */
export async function queueImport(db: Db, id: string, startedById: string, now: Date): Promise<boolean> {
  const { count } = await db.import.updateMany({ where: { id, state: "uploaded" }, data: { state: "queued", startedById, queuedAt: now } });
  if (count === 1) await db.$executeRaw`SELECT graphile_worker.add_job('run-imports', max_attempts := 1)`;
  return count === 1;
}

/** Takes a file back before the worker has it; false when it has. */
export async function withdrawImport(db: Db, id: string, now: Date): Promise<boolean> {
  return (await db.import.updateMany({ where: { id, state: { in: ["uploaded", "queued"] } }, data: { state: "withdrawn", finishedAt: now } })).count === 1;
}

/** One worker at a time brings in figures: true for the one that may, until its transaction ends or its connection dies. */
export async function lockImports(db: Db): Promise<boolean> {
  const [row] = await db.$queryRaw<{ mine: boolean }[]>`SELECT pg_try_advisory_xact_lock(hashtextextended('bring in figures', 0)) AS mine`;
  return row?.mine ?? false;
}

/** The file that has waited longest, or one that a worker began and did not end; for the holder of the lock. */
export async function nextImport(db: Db): Promise<ImportKept | null> {
  const row = await db.import.findFirst({ where: { state: { in: ["queued", "running"] } }, orderBy: [{ queuedAt: "asc" }, { id: "asc" }], ...WITH_PEOPLE });
  return row && importOf(row);
}

/** Notes, for everybody to see at once, that the worker begins; false when the file was taken back meanwhile. */
export async function beginImport(id: string): Promise<boolean> {
  const begun = { state: "running", phase: "reading", bytesRead: 0, rows: 0, attempts: { increment: 1 } } as const;
  return (await database().import.updateMany({ where: { id, state: { in: ["queued", "running"] } }, data: begun })).count === 1;
}

/** Notes, for everybody to see at once, how far the worker is. */
export async function noteProgress(id: string, progress: { phase: ImportPhase; bytesRead: number; rows: number }): Promise<void> {
  await database().import.updateMany({ where: { id, state: "running" }, data: progress });
}

export async function endImport(db: Db, id: string, end: { state: "done" | "refused" | "failed"; now: Date; reason?: ImportReason } & Partial<Pick<ImportKept, "rows" | "added" | "changed" | "alreadyThere" | "faulty">>): Promise<void> {
  const { now, ...data } = end;
  await db.import.update({ where: { id }, data: { ...data, phase: null, finishedAt: now } });
}

export interface ImportProblemKept extends TellableProblem {
  line: number;
  /** Heading of the column. */
  column: string;
  value: string;
}

/** What was wrong with the rows of a file, or with what was updated what it was before, in the order of its lines. */
export async function listProblems(importId: string, limit?: number): Promise<ImportProblemKept[]> {
  const rows = await database().importProblem.findMany({ where: { importId }, orderBy: { ordinal: "asc" }, ...(limit === undefined ? {} : { take: limit }) });
  // Written by `keepProblems`, from this type.
  return rows.map(({ importId: _, ordinal: __, problem, ...row }) => ({ ...row, problem: problem as TellableProblem["problem"] }));
}

/**
 * Forgets the files that were uploaded before, and the values of their rows; the history stays. One that still waits for a
 * person is taken back.
 *
 * @returns how many
 */
export async function forgetFiles(db: Db, before: Date, now: Date): Promise<number> {
  const old = { uploadedAt: { lt: before }, storageKey: { not: null }, state: { notIn: ["queued", "running"] } } satisfies Prisma.ImportWhereInput;
  const files = await db.import.findMany({ where: old, select: { id: true, storageKey: true } });
  const ids = files.map(({ id }) => id);
  await db.importProblem.deleteMany({ where: { importId: { in: ids } } });
  await db.import.updateMany({ where: { id: { in: ids }, state: "uploaded" }, data: { state: "withdrawn", finishedAt: now } });
  await db.import.updateMany({ where: { id: { in: ids } }, data: { storageKey: null } });
  await discardObjects(db, files.flatMap(({ storageKey }) => storageKey ?? []));
  return files.length;
}
