import "server-only";
import { goneBefore } from "@/lib/domain/claims/presence";
import { BACK_AT_DESK_DUE_HOURS, DESK_STAGES, MESSAGE_DUE_HOURS, PRESSING_HOURS, type QueueMark, type QueueSort } from "@/lib/domain/claims/queue-order";
import { type ClaimStage, QUEUE_STAGES } from "@/lib/domain/claims/stages";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { database } from "./client";
import { Prisma } from "./generated/client";

export interface QueueQuestion {
  /** Left out: all that wait. */
  stage?: ClaimStage | "open" | "ended" | undefined;
  sort: QueueSort;
  /** From 1. */
  page: number;
  kit?: string | undefined;
  who?: "mine" | "nobody" | undefined;
  mark?: QueueMark | undefined;
}

/** Who asks and when, and the causes one of which must lead, or null for any. */
export interface QueueAsker {
  personId: string;
  leaders: readonly CauseCode[] | null;
  now: Date;
}

type Sql = Prisma.Sql;
const { sql } = Prisma;

const OPEN = sql`c.stage = ANY(${[...QUEUE_STAGES]}::claim_stage[])`;
/** Open, or ended and the customer has written since. */
const WAITS = sql`(${OPEN} OR c.wrote_at IS NOT NULL)`;
const FILED = sql`c.stage <> 'draft'`;
const AT_THE_DESK = sql`c.stage = ANY(${[...DESK_STAGES]}::claim_stage[])`;
const IS_UNANSWERED = sql`(${OPEN} AND c.first_answer_at IS NULL)`;
const MUST_STAND_STILL = sql`(${OPEN} AND c.stops_engine)`;
const BOUNCED = sql`EXISTS (SELECT FROM outgoing_mail AS m WHERE m.claim_id = c.id AND m.bounced_at IS NOT NULL AND m.reached_at IS NULL)`;

/** As `dueAt` of the domain. */
const DUE = sql`CASE WHEN ${IS_UNANSWERED} THEN c.promised_at
  WHEN c.wrote_at IS NOT NULL THEN c.wrote_at + make_interval(hours => ${MESSAGE_DUE_HOURS}::int)
  WHEN ${AT_THE_DESK} THEN c.desk_since + make_interval(hours => ${BACK_AT_DESK_DUE_HOURS}::int) END`;

/** Claims with when staff owe the next act. */
const CLAIMS = sql`claim AS c, LATERAL (SELECT ${DUE} AS due) AS d`;

/** The same order as `byRisk`. */
function byRisk(now: Date): Sql {
  const pressing = sql`(d.due IS NOT NULL AND d.due <= ${now}::timestamptz + make_interval(hours => ${PRESSING_HOURS}::int))`;
  const atTheDesk = sql`(d.due IS NOT NULL OR ${AT_THE_DESK})`;
  return sql`${MUST_STAND_STILL} DESC, CASE WHEN ${pressing} THEN 0 WHEN ${atTheDesk} THEN 1 ELSE 2 END,
    CASE WHEN NOT ${pressing} AND ${atTheDesk} THEN coalesce(c.look_value, 0) ELSE 0 END DESC, d.due NULLS LAST, c.first_answer_at NULLS LAST, c.promised_at`;
}

function inOrder(sort: QueueSort, now: Date): Sql {
  switch (sort) {
    case "risk":
      return byRisk(now);
    case "promised":
      return sql`c.promised_at`;
    case "value":
      return sql`c.look_value DESC NULLS LAST`;
    case "newest":
      return sql`c.filed_at DESC`;
    case "unit":
      return sql`c.unit_probability DESC NULLS LAST`;
    case "leader":
      return sql`c.leader_probability DESC NULLS LAST`;
  }
}

const MARKED: Readonly<Record<QueueMark, (now: Date) => Sql>> = {
  late: (now) => sql`${IS_UNANSWERED} AND c.promised_at < ${now}`,
  wrote: () => sql`c.wrote_at IS NOT NULL`,
  still: () => MUST_STAND_STILL,
  back: () => sql`c.stage = 'in_review' AND c.first_answer_at IS NOT NULL`,
  lapsing: () => sql`c.stage = 'awaiting_checks' AND c.lapses_at IS NOT NULL`,
  second_look: () => sql`(${OPEN} AND EXISTS (SELECT FROM verdict_proposal AS w WHERE w.claim_id = c.id AND w.state = 'waiting'))`,
  unreached: () => sql`(${BOUNCED} OR (${OPEN} AND c.contact_email IS NULL))`,
};

function matching({ stage, kit, who, mark }: QueueQuestion, { personId, leaders, now }: QueueAsker): Sql {
  const conditions = [inStage(stage ?? "open")];
  if (kit) conditions.push(sql`c.kit_revision_id IN (SELECT r.id FROM kit_revision AS r JOIN kit AS k ON k.id = r.kit_id WHERE k.code = ${kit})`);
  if (who) conditions.push(who === "mine" ? sql`c.assigned_to_id = ${personId}::uuid` : sql`c.assigned_to_id IS NULL`);
  if (leaders) conditions.push(sql`c.leader_cause = ANY(${[...leaders]})`);
  if (mark) conditions.push(MARKED[mark](now));
  return Prisma.join(conditions, " AND ");
}

function inStage(stage: NonNullable<QueueQuestion["stage"]>): Sql {
  return stage === "open" ? WAITS : stage === "ended" ? sql`${FILED} AND NOT ${OPEN}` : sql`c.stage = ${stage}::claim_stage`;
}

/** What a row of the queue shows. */
const ROW = {
  id: true,
  reference: true,
  language: true,
  stage: true,
  stopsEngine: true,
  filedAt: true,
  promisedAt: true,
  firstAnswerAt: true,
  wroteAt: true,
  deskSince: true,
  lookValue: true,
  lapsesAt: true,
  leaderCause: true,
  leaderProbability: true,
  unitProbability: true,
  vehicleWords: true,
  contactEmail: true,
  contactPhone: true,
  vehicle: true,
  kitRevision: { select: { revision: true, kit: { select: { code: true, name: true } } } },
  assignedTo: { select: { id: true, name: true } },
  verdicts: { select: { supersededAt: true, decidedById: true, decidedAt: true } },
  proposals: { where: { state: "waiting" }, select: { proposedBy: { select: { id: true, name: true } } }, take: 1 },
  mails: { where: { bouncedAt: { not: null }, reachedAt: null }, select: { id: true }, take: 1 },
} as const;

/** One page of the queue and how many there are in all. */
export async function listQueue(question: QueueQuestion, asker: QueueAsker, perPage: number) {
  const where = matching(question, asker);
  const [counted, page] = await Promise.all([
    database().$queryRaw<{ total: number }[]>`SELECT count(*)::int AS total FROM claim AS c WHERE ${where}`,
    database().$queryRaw<{ id: string }[]>`
      SELECT c.id FROM ${CLAIMS} WHERE ${where}
      ORDER BY ${inOrder(question.sort, asker.now)}, c.id LIMIT ${perPage} OFFSET ${(question.page - 1) * perPage}`,
  ]);
  return { total: counted[0]?.total ?? 0, rows: await findQueueRows(page.map(({ id }) => id)) };
}

/** Claims as the queue shows them, in the order of the ids. */
export async function findQueueRows(ids: readonly string[]) {
  const claims = await database().claim.findMany({ where: { id: { in: [...ids] }, stage: { not: "draft" } }, select: ROW });
  const byId = new Map(claims.map((claim) => [claim.id, claim]));
  return ids.flatMap((id) => byId.get(id) ?? []);
}

/** How many claims wait, how many of them without an answer past the promised time, and how many engines must stand still. */
export async function countWaiting(now: Date): Promise<{ waiting: number; late: number; mustStandStill: number }> {
  const [counts] = await database().$queryRaw<{ waiting: number; late: number; mustStandStill: number }[]>`
    SELECT count(*)::int AS "waiting",
      count(*) FILTER (WHERE ${IS_UNANSWERED} AND c.promised_at < ${now})::int AS "late",
      count(*) FILTER (WHERE ${MUST_STAND_STILL})::int AS "mustStandStill"
    FROM claim AS c WHERE ${WAITS}`;
  return counts ?? { waiting: 0, late: 0, mustStandStill: 0 };
}

/** Whether a listed claim waits for somebody else than this person: for a second look at their verdict, or an answer to what was said against it. */
function isForAnother(personId: string): Sql {
  return sql`(EXISTS (SELECT FROM verdict_proposal AS w WHERE w.claim_id = l.id AND w.state = 'waiting' AND w.proposed_by_id = ${personId}::uuid)
    OR EXISTS (
      SELECT FROM verdict AS v WHERE v.claim_id = l.id AND v.decided_by_id = ${personId}::uuid AND v.superseded_at IS NOT NULL
        AND NOT EXISTS (SELECT FROM verdict AS later WHERE later.claim_id = l.id AND later.decided_at > v.decided_at)))`;
}

export interface PlaceInQueue {
  /** The claim after this one that nobody else has open now, and that waits for no other; after the last, or from outside the list, the first. */
  next: string | null;
  before: string | null;
  /** From 1; 0 when it is not in the list. */
  place: number;
  of: number;
}

/** Where a claim stands in a view of the queue, and what comes before and after it. */
export async function findPlaceInQueue(claimId: string, question: QueueQuestion, asker: QueueAsker): Promise<PlaceInQueue> {
  const [found] = await database().$queryRaw<{ next: string | null; before: string | null; place: number | null; of: number }[]>`
    WITH listed AS MATERIALIZED (
      SELECT c.id, row_number() OVER (ORDER BY ${inOrder(question.sort, asker.now)}, c.id) AS place FROM ${CLAIMS} WHERE ${matching(question, asker)}
    ), here AS (SELECT place FROM listed WHERE id = ${claimId}::uuid),
    others AS (
      SELECT l.id, l.place > coalesce((SELECT place FROM here), 0) AS comes_after, l.place FROM listed AS l
      WHERE l.id <> ${claimId}::uuid AND NOT EXISTS (
        SELECT FROM claim_presence AS p WHERE p.claim_id = l.id AND p.person_id <> ${asker.personId}::uuid AND p.seen_at > ${goneBefore(asker.now)}::timestamptz)
        AND NOT ${isForAnother(asker.personId)}
    )
    SELECT (SELECT id FROM others ORDER BY comes_after DESC, place LIMIT 1) AS "next",
      (SELECT id FROM listed WHERE place = (SELECT place FROM here) - 1) AS "before",
      (SELECT place FROM here)::int AS "place",
      (SELECT count(*) FROM listed)::int AS "of"`;
  return { next: found?.next ?? null, before: found?.before ?? null, place: found?.place ?? 0, of: found?.of ?? 0 };
}
