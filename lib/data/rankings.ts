import "server-only";
import { fuelOf } from "@/lib/domain/claims/fuel";
import type { ClaimContext } from "@/lib/domain/diagnosis/experience";
import { type KeptRankingForm, rankingAsKept } from "@/lib/domain/diagnosis/kept-ranking";
import type { Observer } from "@/lib/domain/diagnosis/knowledge";
import type { Observation } from "@/lib/domain/diagnosis/observation";
import type { Ranking } from "@/lib/domain/diagnosis/ranking";
import type { IntakeAnswers } from "@/lib/domain/intake/answers";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";

/**
 * Keeps a ranking whole, and on the claim what the queue sorts by.
 *
 * @param lookValue what the next look is expected to save, null where nothing could be ranked
 */
export async function insertRanking(db: Db, claimId: string, observations: readonly Observation[], ranking: Ranking, lookValue: number | null): Promise<{ id: string }> {
  const leader = ranking.outcome === "ranked" ? ranking.causes[0] : undefined;
  await db.claim.update({
    where: { id: claimId },
    data: {
      leaderCause: leader?.code ?? null,
      leaderProbability: leader?.probability ?? null,
      unitProbability: ranking.outcome === "ranked" ? ranking.unitDefective : null,
      stopsEngine: ranking.stopEngine !== null,
      lookValue,
    },
  });
  return db.ranking.create({
    data: {
      claimId,
      editionNumber: ranking.edition,
      observations: observations as unknown as Prisma.InputJsonArray,
      result: ranking as unknown as Prisma.InputJsonObject,
    },
    select: { id: true },
  });
}

/** What the engine of a claim burns, where it is known. */
export async function findFuelOfClaim(db: Db, claimId: string): Promise<string | undefined> {
  const { answers, vehicle } = await db.claim.findUniqueOrThrow({ where: { id: claimId }, select: { answers: true, vehicle: { select: { fuel: true } } } });
  return fuelOf({ vehicle, answers: answers as IntakeAnswers });
}

/** Who filed a claim, as findings name observers. */
export async function findFilerOfClaim(db: Db, claimId: string): Promise<Observer> {
  return (await db.claim.findUniqueOrThrow({ where: { id: claimId }, select: { filedBy: true } })).filedBy ?? "customer";
}

/** The kit and vehicle of a claim, where they are known. */
export async function findContextOfClaim(db: Db, claimId: string): Promise<ClaimContext> {
  const { kitRevision, vehicleId } = await db.claim.findUniqueOrThrow({ where: { id: claimId }, select: { vehicleId: true, kitRevision: { select: { kitId: true } } } });
  return { kit: kitRevision?.kitId ?? null, vehicle: vehicleId };
}

export interface KeptRanking {
  id: string;
  createdAt: Date;
  ranking: Ranking;
  /** What went in: with the edition it names the ranking can be made again. */
  observations: readonly Observation[];
}

/** The newest ranking of a claim, exactly as it was computed, with what it was computed from; or null. */
export async function findLatestRanking(claimId: string, db: Db = database()): Promise<KeptRanking | null> {
  const row = await db.ranking.findFirst({ where: { claimId }, orderBy: [{ createdAt: "desc" }, { id: "desc" }] });
  // Only rankings made by `rankCauses`, and the observations they were made from, are ever stored.
  return row && { id: row.id, createdAt: row.createdAt, ranking: rankingAsKept(row.result as unknown as KeptRankingForm), observations: row.observations as unknown as readonly Observation[] };
}
