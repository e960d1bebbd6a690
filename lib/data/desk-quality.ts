import "server-only";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import type { Stakes } from "@/lib/domain/diagnosis/stakes";
import type { Wait, Waits } from "@/lib/domain/reporting/desk-waits";
import { monthsLater, type Period } from "@/lib/domain/reporting/month";
import { database } from "./client";
import type { KeptFacts } from "./desk-lines";
import { Prisma } from "./generated/client";

export interface DeskClaimsWanted extends Period {
  kitRevisionIds?: readonly string[] | undefined;
  vehicle?: string | undefined;
  timeZone: string;
  stakes: Stakes;
  now: Date;
}

/** What the claims of one group have in common. */
interface GroupKey {
  factsId: number;
  wasSuspected: boolean;
  /** Still without a first answer, though the promise has passed. */
  isOverdueNow: boolean;
}

export interface KeptGroup extends GroupKey {
  facts: KeptFacts;
  claims: number;
}

/** The claims filed in a period by what they have in common. */
export async function countDeskFacts(wanted: DeskClaimsWanted): Promise<KeptGroup[]> {
  const groups = await database().$queryRaw<(GroupKey & { facts: string; claims: number })[]>`
    SELECT counted.*, kept.facts FROM (
      SELECT facts_id AS "factsId", ${suspected(wanted)} AS "wasSuspected", ${overdue(wanted)} AS "isOverdueNow", count(*)::int AS "claims"
      FROM desk_claim WHERE ${filedIn(wanted)} GROUP BY 1, 2, 3
    ) AS counted JOIN desk_facts AS kept ON kept.id = counted."factsId"
    ORDER BY claims DESC, facts`;
  return groups.map(({ facts, ...group }) => ({ ...group, facts: JSON.parse(facts) as KeptFacts }));
}

/** How long they waited, those that are over or ended; and since when the others wait. */
export async function countDeskWaits(wanted: DeskClaimsWanted): Promise<{ firstAnswer: Waits; verdict: Waits; open: { filedAt: Date; awaitsAnswer: boolean; awaitsVerdict: boolean }[] }> {
  const waits = (minutes: string, isOver: string) =>
    database().$queryRaw<Wait[]>`
      SELECT ${Prisma.raw(minutes)} AS "minutes", ${Prisma.raw(isOver)} AS "isOver", count(*)::int AS "claims"
      FROM desk_claim WHERE ${filedIn(wanted)} AND ${Prisma.raw(minutes)} IS NOT NULL GROUP BY 1, 2`;
  const [answerWorking, answerCalendar, verdictWorking, verdictCalendar, open] = await Promise.all([
    waits("answer_working", "is_answered"),
    waits("answer_calendar", "is_answered"),
    waits("verdict_working", "is_decided"),
    waits("verdict_calendar", "is_decided"),
    database().$queryRaw<{ filedAt: Date; awaitsAnswer: boolean; awaitsVerdict: boolean }[]>`
      SELECT filed_at AS "filedAt", answer_working IS NULL AS "awaitsAnswer", verdict_working IS NULL AS "awaitsVerdict"
      FROM desk_claim WHERE ${filedIn(wanted)} AND (answer_working IS NULL OR verdict_working IS NULL)`,
  ]);
  return { firstAnswer: { working: answerWorking, calendar: answerCalendar }, verdict: { working: verdictWorking, calendar: verdictCalendar }, open };
}

export interface DeskRow {
  id: string;
  reference: string;
  stage: ClaimStage;
  kit: string | null;
  vehicle: string | null;
  filedAt: Date;
  /** Of the standing verdict. */
  cause: CauseCode | null;
  attribution: Attribution | null;
  remedy: Remedy | null;
  way: string | null;
  reason: string | null;
  decidedBy: string | null;
  /** What the ranking put first on which the standing verdict was given. */
  leader: CauseCode | null;
  secondCause: CauseCode | null;
  secondAttribution: Attribution | null;
  /** Opening hours from filing, where it happened. */
  hoursToAnswer: number | null;
  hoursToVerdict: number | null;
}

/** The claims of some groups, newest first. Nothing tells whose they are. */
export function listDeskRows(wanted: DeskClaimsWanted, groups: readonly GroupKey[], slice: { skip: number; take: number }): Promise<DeskRow[]> {
  return database().$queryRaw<DeskRow[]>`
    SELECT c.id, c.reference, c.stage::text, k.code AS "kit",
      (SELECT concat_ws(' ', make, model, engine) FROM vehicle WHERE id = c.vehicle_id) AS "vehicle",
      c.filed_at AS "filedAt", v.primary_cause AS "cause", v.attribution::text, v.remedy::text, v.way::text, v.reason, by.name AS "decidedBy",
      (SELECT result->'causes'->0->>'code' FROM ranking WHERE id = v.ranking_id) AS "leader",
      o.primary_cause AS "secondCause", o.attribution::text AS "secondAttribution",
      CASE WHEN page.is_answered THEN page.answer_working / 60.0::float8 END AS "hoursToAnswer",
      CASE WHEN page.is_decided THEN page.verdict_working / 60.0::float8 END AS "hoursToVerdict"
    FROM (
      SELECT * FROM desk_claim
      WHERE ${filedIn(wanted)} AND (facts_id, ${suspected(wanted)}, ${overdue(wanted)}) IN (
        SELECT * FROM unnest(${groups.map(({ factsId }) => factsId)}::int[], ${groups.map(({ wasSuspected }) => wasSuspected)}::boolean[], ${groups.map(({ isOverdueNow }) => isOverdueNow)}::boolean[])
      )
      ORDER BY filed_at DESC, claim_id OFFSET ${slice.skip} LIMIT ${slice.take}
    ) AS page
    JOIN claim AS c ON c.id = page.claim_id
    LEFT JOIN kit_revision AS rev ON rev.id = c.kit_revision_id
    LEFT JOIN kit AS k ON k.id = rev.kit_id
    LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL
    LEFT JOIN person AS by ON by.id = v.decided_by_id
    LEFT JOIN second_opinion AS o ON o.claim_id = c.id
    ORDER BY page.filed_at DESC, c.id`;
}

function filedIn({ from, to, kitRevisionIds, vehicle, timeZone }: DeskClaimsWanted): Prisma.Sql {
  const conditions = [
    Prisma.sql`filed_at >= ${`${from}-01`}::timestamp AT TIME ZONE ${timeZone} AND filed_at < ${`${monthsLater(to, 1)}-01`}::timestamp AT TIME ZONE ${timeZone}`,
  ];
  if (kitRevisionIds !== undefined) conditions.push(Prisma.sql`kit_revision_id = ANY (${[...kitRevisionIds]}::uuid[])`);
  if (vehicle === "unknown") conditions.push(Prisma.sql`vehicle_id IS NULL`);
  else if (vehicle !== undefined) conditions.push(Prisma.sql`vehicle_id = ${vehicle}::uuid`);
  return Prisma.join(conditions, " AND ");
}

/** From here on a return is expected to cost less than a defect that is missed. */
function suspected({ stakes: { needlessReturn, missedDefect } }: DeskClaimsWanted): Prisma.Sql {
  return Prisma.sql`coalesce(unit_defective >= ${needlessReturn / (needlessReturn + missedDefect)}::float8, false)`;
}

function overdue({ now }: DeskClaimsWanted): Prisma.Sql {
  return Prisma.sql`(answer_working IS NULL AND promised_at < ${now})`;
}
