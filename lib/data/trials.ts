import "server-only";
import type { TrialKind } from "@/lib/domain/diagnosis/editions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

export interface Trial {
  id: string;
  editionNumber: number;
  againstNumber: number;
  kind: TrialKind;
  askedAt: Date;
  startedAt: Date | null;
  progressAt: Date | null;
  finishedAt: Date | null;
  done: number;
  of: number;
  /** As the trial's kind has it; null while it runs and where it failed. */
  result: unknown;
  failure: string | null;
  askedBy: { name: string } | null;
}

const TRIAL = { askedBy: { select: { name: true } } } as const;

export interface TrialToInsert {
  editionNumber: number;
  againstNumber: number;
  kind: TrialKind;
  askedById: string | null;
}

/**
 * Asks for a trial, with the job that will run it: both are kept or neither. Null where one of the kind already waits
 * or runs for this edition. In a transaction that holds the editions.
 */
export async function insertTrial(db: Db, trial: TrialToInsert): Promise<string | null> {
  const running = await db.editionTrial.findFirst({ where: { editionNumber: trial.editionNumber, kind: trial.kind, finishedAt: null }, select: { id: true } });
  if (running) return null;
  const { id } = await db.editionTrial.create({ data: trial, select: { id: true } });
  await db.$executeRaw`SELECT graphile_worker.add_job('dry-run', json_build_object('trialId', ${id}::text), job_key := ${`trial:${id}`}, max_attempts := 3)`;
  return id;
}

export function findTrial(id: string, db: Db = database()): Promise<Trial | null> {
  return db.editionTrial.findUnique({ where: { id }, include: TRIAL });
}

/** Trials of an edition, the newest first. */
export function listTrials(editionNumber: number, db: Db = database()): Promise<Trial[]> {
  return db.editionTrial.findMany({ where: { editionNumber }, include: TRIAL, orderBy: [{ askedAt: "desc" }, { id: "desc" }] });
}

/** Begins a trial, or begins it anew after a worker died: false where it is over already. */
export async function startTrial(id: string, of: number, db: Db = database()): Promise<boolean> {
  const now = new Date();
  const { count } = await db.editionTrial.updateMany({ where: { id, finishedAt: null }, data: { startedAt: now, progressAt: now, done: 0, of } });
  if (count === 0) return false;
  await db.trialChange.deleteMany({ where: { trialId: id } });
  return true;
}

/** How far it is; false where somebody has ended it meanwhile. */
export async function markTrialProgress(id: string, { done, of }: { done: number; of: number }, db: Db = database()): Promise<boolean> {
  const { count } = await db.editionTrial.updateMany({ where: { id, finishedAt: null }, data: { done, of: Math.max(done, of), progressAt: new Date() } });
  return count === 1;
}

export async function finishTrial(id: string, outcome: { result: Prisma.InputJsonObject } | { failure: string }, db: Db = database()): Promise<void> {
  await db.editionTrial.updateMany({ where: { id, finishedAt: null }, data: { ...outcome, finishedAt: new Date() } });
}

/** Ends trials that have shown no sign of life since then: their worker is gone. */
export async function giveUpTrials(db: Db, silentSince: Date): Promise<void> {
  await db.editionTrial.updateMany({
    where: { finishedAt: null, OR: [{ progressAt: { lt: silentSince } }, { progressAt: null, askedAt: { lt: silentSince } }] },
    data: { finishedAt: new Date(), failure: "The worker stopped before it was done." },
  });
}

export interface TrialChangeRow {
  claimId: string;
  beforeCause: CauseCode | null;
  beforeProbability: number | null;
  afterCause: CauseCode | null;
  afterProbability: number | null;
  unitShift: number;
}

export async function insertTrialChanges(trialId: string, changes: readonly TrialChangeRow[], db: Db = database()): Promise<void> {
  if (changes.length > 0) await db.trialChange.createMany({ data: changes.map((change) => ({ trialId, ...change })), skipDuplicates: true });
}

/** One page of the claims a trial leads otherwise, surest of the new leader first. */
export async function listTrialChanges(trialId: string, { skip, take }: { skip: number; take: number }) {
  return database().trialChange.findMany({
    where: { trialId },
    orderBy: [{ afterProbability: { sort: "desc", nulls: "last" } }, { claimId: "asc" }],
    skip,
    take,
    include: { claim: { select: { reference: true, stage: true } } },
  });
}
