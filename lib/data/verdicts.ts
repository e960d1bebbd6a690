import "server-only";
import type { SecondPersonGround } from "@/lib/domain/claims/second-person";
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
  approvedById?: string;
  approvedAt?: Date;
}

export function insertVerdict(db: Db, { contributingCauses, letterPhotos, ...verdict }: VerdictToInsert): Promise<{ id: string }> {
  return db.verdict.create({ data: { ...verdict, contributingCauses: [...contributingCauses], letterPhotos: [...letterPhotos] }, select: { id: true } });
}

/** The verdict that stands ends, by an objection; it stays in the story of the claim. */
export async function supersedeVerdict(db: Db, claimId: string, now: Date, objection = ""): Promise<void> {
  await db.verdict.updateMany({ where: { claimId, supersededAt: null }, data: { supersededAt: now, objection } });
}

/**
 * Takes a decided claim back into review, in the caller's transaction: its verdict no longer stands. Whoever gave it has
 * the claim in hand no more: an objection goes to a second person.
 */
export async function reopenDecidedClaim(db: Db, claimId: string, by: Pick<AuditLine, "actor" | "detail">, objection: string, now: Date, changes: Prisma.ClaimUncheckedUpdateManyInput = {}): Promise<MoveResult> {
  const standing = await db.verdict.findFirst({ where: { claimId, supersededAt: null }, select: { decidedById: true } });
  const moved = await moveClaim(db, claimId, "appeal", by, { changes: { ...changes, decidedAt: null, settledAt: null } });
  if (!moved.ok) return moved;
  await supersedeVerdict(db, claimId, now, objection);
  if (standing) await db.claim.updateMany({ where: { id: claimId, assignedToId: standing.decidedById }, data: { assignedToId: null } });
  return moved;
}

const WITH_PEOPLE = { decidedBy: { select: { id: true, name: true } }, approvedBy: { select: { name: true } } } as const;

/** All verdicts of a claim, the newest first; the one that stands has not been superseded. */
export function listVerdicts(claimId: string, db: Db = database()) {
  return db.verdict.findMany({ where: { claimId }, orderBy: { decidedAt: "desc" }, include: WITH_PEOPLE });
}

export function findStandingVerdict(claimId: string, db: Db = database()) {
  return db.verdict.findFirst({ where: { claimId, supersededAt: null }, include: WITH_PEOPLE });
}
export type StandingVerdict = NonNullable<Awaited<ReturnType<typeof findStandingVerdict>>>;

/** The letter of the verdict that stands, with the photos that go with it in the order of the claim's. */
export async function findLetterOfClaim(claimId: string) {
  const verdict = await database().verdict.findFirst({ where: { claimId, supersededAt: null }, select: { letter: true, decidedAt: true, letterPhotos: true, claim: { select: { reference: true, language: true, country: true } } } });
  if (!verdict) return null;
  const photos = await database().photo.findMany({ where: { claimId, id: { in: verdict.letterPhotos } }, orderBy: [{ createdAt: "asc" }, { id: "asc" }], select: { id: true, subject: true, storageKey: true } });
  return { text: verdict.letter, decidedAt: verdict.decidedAt, claim: verdict.claim, photos };
}

export interface ProposalToInsert extends Verdict {
  claimId: string;
  letter: string;
  explanation: string;
  grounds: readonly SecondPersonGround[];
  rankingId: string | null;
  proposedById: string;
  proposedAt: Date;
}

/** Keeps a verdict that waits for a second person; of a claim one waits at a time. */
export function insertProposal(db: Db, { contributingCauses, letterPhotos, grounds, ...proposal }: ProposalToInsert): Promise<{ id: string }> {
  return db.verdictProposal.create({ data: { ...proposal, contributingCauses: [...contributingCauses], letterPhotos: [...letterPhotos], grounds: [...grounds] }, select: { id: true } });
}

const OF_PROPOSAL = { proposedBy: { select: { id: true, name: true } }, lookedAtBy: { select: { name: true } } } as const;

/** The verdict that waits for a second person, or null. */
export function findWaitingProposal(claimId: string, db: Db = database()) {
  return db.verdictProposal.findFirst({ where: { claimId, state: "waiting" }, include: OF_PROPOSAL });
}
export type WaitingProposal = NonNullable<Awaited<ReturnType<typeof findWaitingProposal>>>;

/** The newest proposal of a claim that a second person sent back, with why; null where a verdict came after it. */
export async function findSentBackProposal(claimId: string, db: Db = database()) {
  const newest = await db.verdictProposal.findFirst({ where: { claimId }, orderBy: { proposedAt: "desc" }, include: OF_PROPOSAL });
  if (newest?.state !== "sent_back") return null;
  const after = await db.verdict.findFirst({ where: { claimId, decidedAt: { gt: newest.proposedAt } }, select: { id: true } });
  return after ? null : newest;
}

/**
 * Ends the wait of a proposal.
 *
 * @returns whether it still waited
 */
export async function closeProposal(db: Db, id: string, state: "approved" | "sent_back" | "withdrawn", lookedAtById: string, now: Date, note = ""): Promise<boolean> {
  const { count } = await db.verdictProposal.updateMany({ where: { id, state: "waiting" }, data: { state, lookedAtById, lookedAtAt: now, note } });
  return count === 1;
}
