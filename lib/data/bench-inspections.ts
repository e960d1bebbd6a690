import "server-only";
import type { BenchStep } from "@/lib/domain/claims/bench-steps";
import { type KeptRankingForm, rankingAsKept } from "@/lib/domain/diagnosis/kept-ranking";
import { type Db, database } from "./client";

/** What was typed at a step, by the names of its fields. */
export type TypedStep = Readonly<Record<string, string>>;

export interface StepToKeep {
  inspectionId: string;
  step: BenchStep;
  isSkipped: boolean;
  typed: TypedStep;
  /** The chance of a defective unit and the leading cause before and after; null where nothing was ranked. */
  moved: RankingMove | null;
  savedById: string;
  savedAt: Date;
}

export interface RankingMove {
  unitBefore: number | null;
  unitAfter: number | null;
  leaderBefore: string | null;
  leaderAfter: string | null;
}

const OPEN = { select: { id: true, returnId: true, startedAt: true, inspectedBy: { select: { id: true, name: true } } } } as const;

/** The inspection that is under way on a returned unit, or null. */
export function findOpenInspection(returnId: string, db: Db = database()) {
  return db.benchInspection.findFirst({ where: { returnId, inspectedAt: null }, ...OPEN });
}
export type OpenInspection = NonNullable<Awaited<ReturnType<typeof findOpenInspection>>>;

export async function insertInspection(db: Db, started: { returnId: string; inspectedById: string; startedAt: Date }): Promise<void> {
  await db.benchInspection.create({ data: { ...started, inspectedAt: null } });
}

/** Hands an inspection to another person; false when it was finished meanwhile, or another took it first. */
export async function updateInspector(db: Db, { id, from, to }: { id: string; from: string; to: string }): Promise<boolean> {
  const { count } = await db.benchInspection.updateMany({ where: { id, inspectedById: from, inspectedAt: null }, data: { inspectedById: to } });
  return count === 1;
}

/** Ends an inspection; false when it is ended already or another person is at it. */
export async function markInspected(db: Db, { id, personId, note, now }: { id: string; personId: string; note: string; now: Date }): Promise<boolean> {
  const { count } = await db.benchInspection.updateMany({ where: { id, inspectedById: personId, inspectedAt: null }, data: { inspectedAt: now, note } });
  return count === 1;
}

/**
 * Drops the inspection that is under way on a returned unit, as of another unit than it was taken for. What it found stands
 * no longer; the photos stay with the claim.
 *
 * @returns whether there was one
 */
export async function dropInspection(db: Db, returnId: string, now: Date): Promise<boolean> {
  await db.finding.updateMany({ where: { benchInspection: { returnId, inspectedAt: null }, replacedAt: null }, data: { replacedAt: now } });
  return (await db.benchInspection.deleteMany({ where: { returnId, inspectedAt: null } })).count > 0;
}

/** What is kept of the steps of an inspection, in the order in which they were done. */
export async function listSteps(inspectionId: string, db: Db = database()) {
  const rows = await db.benchStepRecord.findMany({ where: { inspectionId }, orderBy: [{ savedAt: "asc" }, { step: "asc" }] });
  // Only what a step's form posted is ever stored.
  return rows.map((row) => ({ ...row, typed: row.typed as TypedStep }));
}
export type KeptStep = Awaited<ReturnType<typeof listSteps>>[number];

/** Keeps a step, in place of what was kept of it before. How the ranking moved stays told when nothing was ranked anew. */
export async function keepStep(db: Db, { inspectionId, step, isSkipped, typed, moved, savedById, savedAt }: StepToKeep): Promise<void> {
  const data = { isSkipped, typed, savedById, savedAt, ...(moved ?? {}) };
  await db.benchStepRecord.upsert({ where: { inspectionId_step: { inspectionId, step } }, create: { inspectionId, step, ...data }, update: data });
}

/** How many findings an inspection has brought that stand. */
export function countFindings(db: Db, inspectionId: string): Promise<number> {
  return db.finding.count({ where: { benchInspectionId: inspectionId, replacedAt: null, OR: [{ measured: { not: null } }, { answer: { not: "unknown" } }] } });
}

/** Photos taken at the bench of a claim, oldest first. */
export function listBenchPhotos(claimId: string) {
  return database().photo.findMany({ where: { claimId, takenBy: "bench" }, orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, benchStep: true, benchInspectionId: true, width: true, height: true } });
}

/** What leads the newest ranking of a claim. */
export function findLeader(db: Db, claimId: string) {
  return db.claim.findUniqueOrThrow({ where: { id: claimId }, select: { unitProbability: true, leaderCause: true } });
}

/** What led a claim's ranking at a moment; null where it was not ranked by then. */
export async function findLeaderBefore(claimId: string, at: Date): Promise<{ unitBefore: number | null; leaderBefore: string | null } | null> {
  const row = await database().ranking.findFirst({ where: { claimId, createdAt: { lt: at } }, orderBy: [{ createdAt: "desc" }, { id: "desc" }], select: { result: true } });
  if (!row) return null;
  // Only rankings made by `rankCauses` are ever stored.
  const ranking = rankingAsKept(row.result as unknown as KeptRankingForm);
  return ranking.outcome === "ranked" ? { unitBefore: ranking.unitDefective, leaderBefore: ranking.causes[0]?.code ?? null } : { unitBefore: null, leaderBefore: null };
}
