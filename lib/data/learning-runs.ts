import "server-only";
import type { BacktestReport } from "@/lib/domain/learning/backtest";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

/** Gives the worker the job of learning, in the transaction that asks for it. Of requests that still wait only one is kept. */
export async function queueLearning(db: Db, personId: string): Promise<void> {
  await db.$executeRaw`SELECT graphile_worker.add_job('learn-edition', json_build_object('personId', ${personId}::text), job_key := 'learn-edition', max_attempts := 3)`;
}

/** Keeps what a backtest found with the edition it was made for. */
export async function insertBacktest(db: Db, trial: { editionNumber: number; againstNumber: number; askedById: string; report: BacktestReport; startedAt: Date }): Promise<void> {
  const { report, startedAt, ...asked } = trial;
  await db.editionTrial.create({
    data: { ...asked, kind: "backtest", askedAt: startedAt, startedAt, finishedAt: new Date(), done: report.scored, of: report.scored, result: report as unknown as Prisma.InputJsonObject },
  });
}

/** The newest backtest of an edition, or null. */
export async function findBacktest(editionNumber: number): Promise<{ report: BacktestReport; againstNumber: number } | null> {
  const row = await database().editionTrial.findFirst({ where: { editionNumber, kind: "backtest", finishedAt: { not: null }, failure: null }, orderBy: { askedAt: "desc" } });
  // Only reports made by `insertBacktest` are ever stored.
  return row?.result ? { report: row.result as unknown as BacktestReport, againstNumber: row.againstNumber } : null;
}

export interface LearningAct {
  at: Date;
  /** Asked for, ended without a proposal (`detail.why`), or proposed (`detail.edition`). */
  action: "ask_to_learn" | "learn_nothing" | "propose_edition";
  by: string | null;
  detail: Readonly<Record<string, unknown>>;
}

/** The last thing that happened about learning, or null where nobody has ever asked. */
export async function findLastLearningAct(db: Db = database()): Promise<LearningAct | null> {
  const row = await db.auditEntry.findFirst({
    where: { OR: [{ action: { in: ["ask_to_learn", "learn_nothing"] } }, { action: "propose_edition", detail: { path: ["origin"], equals: "learned" } }] },
    orderBy: { id: "desc" },
    include: { person: { select: { name: true } } },
  });
  return row && { at: row.at, action: row.action as LearningAct["action"], by: row.person?.name ?? null, detail: row.detail as Readonly<Record<string, unknown>> };
}
