import "server-only";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { type Db, database } from "./client";
import { Prisma } from "./generated/client";

const { sql } = Prisma;

/** Older verdicts are no longer asked about, so that what was left undone does not pile up (judgement). */
const ASKED_FOR_DAYS = 30;

/** A verdict of the sample that stands: which claims are in it follows from their ids alone, and nobody can choose them. */
const ASKED = (share: number, now: Date) => sql`claim AS c
  JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL AND v.decided_at > ${now}::timestamptz - ${ASKED_FOR_DAYS} * interval '1 day'
  WHERE c.stage IN ('decided', 'settled')
    AND ('x' || left(md5(c.id::text), 8))::bit(32)::bigint < ${share} * 42949672.96
    AND NOT EXISTS (SELECT FROM second_opinion WHERE claim_id = c.id)`;

/** Who has decided a claim once, or approved what another decided, knows too much of it. */
const NOT_DECIDED_BY = (personId: string) => sql`NOT EXISTS (SELECT FROM verdict WHERE claim_id = c.id AND ${personId}::uuid IN (decided_by_id, approved_by_id))`;

export interface ClaimAskedAbout {
  id: string;
  kit: string | null;
  vehicle: string | null;
  decidedAt: Date;
}

/** The claims that wait for this person's second opinion, the longest first. */
export function listAskedAbout(personId: string, share: number, now: Date): Promise<ClaimAskedAbout[]> {
  return database().$queryRaw<ClaimAskedAbout[]>`
    SELECT c.id, (SELECT concat(k.code, ' ', k.name, ', rev ', r.revision) FROM kit_revision AS r JOIN kit AS k ON k.id = r.kit_id WHERE r.id = c.kit_revision_id) AS "kit",
      (SELECT concat_ws(' ', make, model, engine) FROM vehicle WHERE id = c.vehicle_id) AS "vehicle", v.decided_at AS "decidedAt"
    FROM ${ASKED(share, now)} AND ${NOT_DECIDED_BY(personId)} ORDER BY v.decided_at, c.id`;
}

/** How a second opinion on this claim stands; `verdictId` is the verdict it would stand beside, null where none is asked for. */
export async function findAsked(db: Db, claimId: string, personId: string, share: number, now: Date): Promise<{ verdictId: string | null; hasDecided: boolean }> {
  const [asked] = await db.$queryRaw<{ id: string }[]>`SELECT v.id FROM ${ASKED(share, now)} AND c.id = ${claimId}::uuid`;
  const decided = await db.verdict.findFirst({ where: { claimId, OR: [{ decidedById: personId }, { approvedById: personId }] }, select: { id: true } });
  return { verdictId: asked?.id ?? null, hasDecided: decided !== null };
}

export interface OpinionToInsert {
  claimId: string;
  verdictId: string;
  primaryCause: CauseCode;
  attribution: Attribution;
  givenById: string;
  givenAt: Date;
}

export async function insertSecondOpinion(db: Db, opinion: OpinionToInsert): Promise<void> {
  await db.secondOpinion.create({ data: opinion });
}

/** The second opinion on a claim with the verdict it stands beside, or null. */
export function findSecondOpinion(claimId: string, db: Db = database()) {
  return db.secondOpinion.findUnique({
    where: { claimId },
    select: {
      primaryCause: true,
      attribution: true,
      givenAt: true,
      givenBy: { select: { id: true, name: true } },
      verdict: { select: { primaryCause: true, attribution: true, decidedBy: { select: { name: true } } } },
    },
  });
}
