import "server-only";
import type { Verdict } from "@/lib/domain/claims/verdict";
import type { AuditLine } from "./audit";
import { type Db, database } from "./client";
import type { Prisma } from "./generated/client";
import { type MoveResult, moveClaim } from "./move-claim";

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

/** Takes a decided claim back into review, in the caller's transaction: its verdict no longer stands. */
export async function reopenDecidedClaim(db: Db, claimId: string, by: Pick<AuditLine, "actor" | "detail">, now: Date, changes: Prisma.ClaimUncheckedUpdateManyInput = {}): Promise<MoveResult> {
  const moved = await moveClaim(db, claimId, "appeal", by, { changes: { ...changes, decidedAt: null, settledAt: null } });
  if (moved.ok) await supersedeVerdict(db, claimId, now);
  return moved;
}

/** All verdicts of a claim, the newest first; the one that stands has not been superseded. */
export function listVerdicts(claimId: string) {
  return database().verdict.findMany({ where: { claimId }, orderBy: { decidedAt: "desc" }, include: { decidedBy: { select: { name: true } } } });
}

export function findStandingVerdict(claimId: string) {
  return database().verdict.findFirst({ where: { claimId, supersededAt: null }, include: { decidedBy: { select: { id: true, name: true } } } });
}
