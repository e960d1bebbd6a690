import "server-only";
import { ANSWERING_ACTS, type QueueSort } from "@/lib/domain/claims/queue-order";
import { parseReference } from "@/lib/domain/claims/reference";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { database } from "./client";
import { Prisma } from "./generated/client";

export interface QueueQuestion {
  /** Left out: all that wait, or in a search any. */
  stage?: ClaimStage | "open" | "ended" | undefined;
  sort: QueueSort;
  /** From 1. */
  page: number;
  kit?: string | undefined;
  who?: "mine" | "nobody" | undefined;
  /** Searched for in reference, serial, order number, name and e-mail address. */
  q?: string | undefined;
}

type Sql = Prisma.Sql;
const { sql } = Prisma;

const OPEN = sql`c.stage = ANY(${[...QUEUE_STAGES]}::claim_stage[])`;
/** Open, or ended and the customer has written since. */
const WAITS = sql`(${OPEN} OR wrote.since IS NOT NULL)`;
const FILED = sql`c.stage <> 'draft'`;

/** The claims with the first message of each customer that nobody has answered; the acts that answer are those of `isAnswer`. */
const CLAIMS = sql`claim AS c
  LEFT JOIN unit AS u ON u.id = c.unit_id
  LEFT JOIN (
    SELECT m.claim_id, min(m.created_at) AS since FROM message AS m
    WHERE m."from" = 'customer' AND NOT EXISTS (
      SELECT FROM audit_entry AS a
      WHERE a.claim_id = m.claim_id AND a.at >= m.created_at AND a.action = ANY(${[...ANSWERING_ACTS]}) AND NOT (a.action = 'write_message' AND a.actor_kind = 'customer')
    )
    GROUP BY m.claim_id
  ) AS wrote ON wrote.claim_id = c.id`;

const IS_UNANSWERED = sql`(${OPEN} AND c.first_answer_at IS NULL)`;

/** The same order as `byRisk`. */
const BY_RISK = sql`(${OPEN} AND c.stops_engine) DESC,
  CASE WHEN ${IS_UNANSWERED} THEN 0 WHEN wrote.since IS NOT NULL THEN 1 ELSE 2 END,
  CASE WHEN ${IS_UNANSWERED} THEN c.promised_at ELSE coalesce(wrote.since, c.first_answer_at, c.promised_at) END,
  c.promised_at`;

const ORDERS: Readonly<Record<QueueSort, Sql>> = {
  risk: BY_RISK,
  promised: sql`c.promised_at`,
  newest: sql`c.filed_at DESC`,
  unit: sql`c.unit_probability DESC NULLS LAST`,
  leader: sql`c.leader_probability DESC NULLS LAST`,
};

function matching({ stage, kit, who, q }: QueueQuestion, personId: string, leaders: readonly CauseCode[] | null): Sql {
  const conditions = [FILED, inStage(stage ?? (q ? undefined : "open"))];
  if (kit) conditions.push(sql`EXISTS (SELECT FROM kit_revision AS r JOIN kit AS k ON k.id = r.kit_id WHERE r.id = c.kit_revision_id AND k.code = ${kit})`);
  if (who) conditions.push(who === "mine" ? sql`c.assigned_to_id = ${personId}::uuid` : sql`c.assigned_to_id IS NULL`);
  if (leaders) conditions.push(sql`c.leader_cause = ANY(${[...leaders]})`);
  if (q) {
    // What stands for any sign in a search is meant as typed.
    const like = `%${q.replace(/[\\%_]/g, "\\$&")}%`;
    conditions.push(sql`(c.reference = ${parseReference(q)} OR concat_ws(E'\\n', c.reference, c.serial, u.serial, c.order_number, c.contact_name, c.contact_email) ILIKE ${like})`);
  }
  return Prisma.join(conditions, " AND ");
}

function inStage(stage: QueueQuestion["stage"]): Sql {
  if (stage === undefined) return FILED;
  return stage === "open" ? WAITS : stage === "ended" ? sql`NOT ${OPEN}` : sql`c.stage = ${stage}::claim_stage`;
}

/**
 * One page of the queue and how many there are in all.
 *
 * @param leaders the causes one of which must lead, or null for any
 */
export async function listQueue(filter: QueueQuestion, personId: string, leaders: readonly CauseCode[] | null, perPage: number) {
  const where = matching(filter, personId, leaders);
  const [counted, page] = await Promise.all([
    database().$queryRaw<{ total: number }[]>`SELECT count(*)::int AS total FROM ${CLAIMS} WHERE ${where}`,
    database().$queryRaw<{ id: string; wroteAt: Date | null }[]>`
      SELECT c.id, wrote.since AS "wroteAt" FROM ${CLAIMS} WHERE ${where}
      ORDER BY ${ORDERS[filter.sort]}, c.id LIMIT ${perPage} OFFSET ${(filter.page - 1) * perPage}`,
  ]);
  const claims = await database().claim.findMany({
    where: { id: { in: page.map(({ id }) => id) } },
    select: {
      id: true,
      reference: true,
      stage: true,
      stopsEngine: true,
      filedAt: true,
      promisedAt: true,
      firstAnswerAt: true,
      leaderCause: true,
      leaderProbability: true,
      unitProbability: true,
      vehicleWords: true,
      vehicle: true,
      kitRevision: { select: { revision: true, kit: { select: { code: true, name: true } } } },
      assignedTo: { select: { id: true, name: true } },
      verdicts: { select: { supersededAt: true } },
    },
  });
  const byId = new Map(claims.map((claim) => [claim.id, claim]));
  const rows = page.flatMap(({ id, wroteAt }) => {
    const claim = byId.get(id);
    return claim ? [{ ...claim, wroteAt }] : [];
  });
  return { total: counted[0]?.total ?? 0, rows };
}

/** How many claims wait, how many of them without an answer past the promised time, and how many engines must stand still. */
export async function countWaiting(now: Date): Promise<{ waiting: number; late: number; mustStandStill: number }> {
  const [counts] = await database().$queryRaw<{ waiting: number; late: number; mustStandStill: number }[]>`
    SELECT count(*)::int AS "waiting",
      count(*) FILTER (WHERE ${IS_UNANSWERED} AND c.promised_at < ${now})::int AS "late",
      count(*) FILTER (WHERE ${OPEN} AND c.stops_engine)::int AS "mustStandStill"
    FROM ${CLAIMS} WHERE ${WAITS}`;
  return counts ?? { waiting: 0, late: 0, mustStandStill: 0 };
}

/** The claim after this one in the plain queue, and this one's place there; from the head when it is not in it, place 0. */
export async function findNextInQueue(claimId: string): Promise<{ next: string | null; place: number; of: number }> {
  const rows = await database().$queryRaw<{ id: string }[]>`SELECT c.id FROM ${CLAIMS} WHERE ${WAITS} ORDER BY ${BY_RISK}, c.id`;
  const ids = rows.map(({ id }) => id);
  const place = ids.indexOf(claimId);
  return { next: ids.filter((id) => id !== claimId)[Math.max(0, place)] ?? null, place: place + 1, of: ids.length };
}
