import "server-only";
import type { Verdict } from "@/lib/domain/claims/verdict";
import { type Db, database } from "./client";

export interface VerdictToInsert extends Verdict {
  claimId: string;
  letter: string;
  rankingId: string | null;
  decidedById: string;
  decidedAt: Date;
}

export function insertVerdict(db: Db, { contributingCauses, ...verdict }: VerdictToInsert): Promise<{ id: string }> {
  return db.verdict.create({ data: { ...verdict, contributingCauses: [...contributingCauses] }, select: { id: true } });
}

/** The verdict that stands ends; it stays in the story of the claim. */
export async function supersedeVerdict(db: Db, claimId: string, now: Date): Promise<void> {
  await db.verdict.updateMany({ where: { claimId, supersededAt: null }, data: { supersededAt: now } });
}

/** All verdicts of a claim, the newest first; the one that stands has not been superseded. */
export function listVerdicts(claimId: string) {
  return database().verdict.findMany({ where: { claimId }, orderBy: { decidedAt: "desc" }, include: { decidedBy: { select: { name: true } } } });
}

export function findStandingVerdict(claimId: string) {
  return database().verdict.findFirst({ where: { claimId, supersededAt: null }, include: { decidedBy: { select: { id: true, name: true } } } });
}
