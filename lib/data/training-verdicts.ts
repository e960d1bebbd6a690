import "server-only";
import type { Confirmation, KitExposure } from "@/lib/domain/learning/training-example";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode, FindingCode, Observer } from "@/lib/domain/diagnosis/knowledge";
import { database } from "./client";
import { observationsFrom } from "./findings";
import { Prisma } from "./generated/client";

/** A verdict that stands, or a claim that a check put right, with all that was found before. */
export interface TrainingVerdict {
  id: string;
  at: Date;
  confirmation: Confirmation;
  /** Null where a check put it right. */
  primary: CauseCode | null;
  contributing: CauseCode[];
  /** The check that put it right. */
  putRightBy: { finding: FindingCode; observer: Observer } | null;
  kit: string | null;
  vehicle: string | null;
  firstContact: ReturnType<typeof observationsFrom>;
  later: ReturnType<typeof observationsFrom>;
}

/**
 * What there is to learn from: verdicts that stand, and claims that ended with a check that had found something. A
 * verdict rests on what is kept as its ground; a withdrawn, lapsed or merged claim is none, nor is a unit that was
 * replaced without another complaint.
 */
const CONFIRMED = Prisma.sql`(
  SELECT c.id, v.decided_at AS at, v.basis::text AS confirmation, v.primary_cause AS "primary", v.contributing_causes AS contributing,
    NULL AS "putRightBy", c.kit_revision_id, c.vehicle_id, c.filed_at
  FROM verdict AS v JOIN claim AS c ON c.id = v.claim_id
  WHERE v.superseded_at IS NULL AND c.stage IN ('decided', 'settled')
  UNION ALL
  SELECT c.id, r.closed_at, 'cleared', NULL, '{}', json_build_object('finding', r.code, 'observer', r.observer), c.kit_revision_id, c.vehicle_id, c.filed_at
  FROM claim AS c JOIN LATERAL (
    SELECT q.closed_at, f.code, f.observer, f.answer FROM check_request AS q JOIN finding AS f ON f.id = q.finding_id
    WHERE q.claim_id = c.id AND q.state = 'answered' ORDER BY q.closed_at DESC LIMIT 1
  ) AS r ON r.answer = 'present'
  WHERE c.stage = 'cleared'
)`;

/** A claim is filed with what is known within this of its filing. */
const FIRST_CONTACT = Prisma.sql`interval '1 minute'`;

export interface TrainingCount {
  confirmation: Confirmation;
  verdicts: number;
}

/** How many there are, by how they were confirmed. */
export function countTrainingVerdicts(): Promise<TrainingCount[]> {
  return database().$queryRaw<TrainingCount[]>`SELECT confirmation, count(*)::int AS verdicts FROM ${CONFIRMED} AS t GROUP BY 1`;
}

/** When the verdict at this place, by time from 0, was confirmed; null where there are not so many. */
export async function findTimeOfVerdict(place: number): Promise<Date | null> {
  const [row] = await database().$queryRaw<{ at: Date }[]>`SELECT at FROM ${CONFIRMED} AS t ORDER BY at, id OFFSET ${place} LIMIT 1`;
  return row?.at ?? null;
}

export interface TrainingCursor {
  at: Date;
  id: string;
}

/** The next verdicts from one moment to another, oldest first: read piece by piece, so that memory does not grow with them. */
export async function listTrainingVerdicts(period: { from?: Date; until?: Date }, after: TrainingCursor | null, take: number): Promise<TrainingVerdict[]> {
  const conditions = [Prisma.sql`TRUE`];
  if (period.from) conditions.push(Prisma.sql`t.at >= ${period.from}`);
  if (period.until) conditions.push(Prisma.sql`t.at < ${period.until}`);
  if (after) conditions.push(Prisma.sql`(t.at, t.id) > (${after.at}, ${after.id}::uuid)`);
  type Found = Parameters<typeof observationsFrom>[0][number] & { isFirst: boolean };
  const rows = await database().$queryRaw<(Omit<TrainingVerdict, "firstContact" | "later"> & { found: Found[] | null })[]>`
    SELECT t.id, t.at, t.confirmation, t."primary", t.contributing, t."putRightBy", r.kit_id AS kit, t.vehicle_id AS vehicle,
      (SELECT json_agg(json_build_object('code', f.code, 'observer', f.observer, 'answer', f.answer, 'measured', f.measured, 'spread', f.spread,
          'isFirst', f.observed_at <= t.filed_at + ${FIRST_CONTACT}) ORDER BY f.observed_at, f.id)
        FROM finding AS f
        WHERE f.claim_id = t.id AND f.observed_at <= t.at AND (f.replaced_at IS NULL OR f.replaced_at > t.at OR f.observed_at <= t.filed_at + ${FIRST_CONTACT})) AS found
    FROM ${CONFIRMED} AS t LEFT JOIN kit_revision AS r ON r.id = t.kit_revision_id
    WHERE ${Prisma.join(conditions, " AND ")}
    ORDER BY t.at, t.id LIMIT ${take}`;
  return rows.map(({ found, ...row }) => ({
    ...row,
    firstContact: observationsFrom((found ?? []).filter(({ isFirst }) => isFirst)),
    later: observationsFrom((found ?? []).filter(({ isFirst }) => !isFirst)),
  }));
}

/** Units shipped before a day by kit and vehicle. */
export function countShippedByKit(until: Date): Promise<KitExposure[]> {
  return database().$queryRaw<KitExposure[]>`
    SELECT r.kit_id AS kit, s.vehicle_id AS vehicle, count(*)::int AS shipped
    FROM shipment AS s JOIN kit_revision AS r ON r.id = s.kit_revision_id
    WHERE s.shipped_on < ${until}::date
    GROUP BY 1, 2 ORDER BY 1, 2`;
}

/** Claims filed before a moment that a verdict could be confirmed on. */
export function countClaimsFiled(until: Date): Promise<number> {
  return database().claim.count({ where: { filedAt: { lt: until }, stage: { notIn: ["draft", "merged", "withdrawn"] } } });
}

/** The probabilities a claim was first shown, and the verdict that came later. */
export interface ShownForecast {
  /** Month of filing. */
  month: string;
  edition: number;
  primary: CauseCode;
  contributing: CauseCode[];
  attribution: Attribution;
  unitDefective: number;
  probabilities: Readonly<Record<CauseCode, number>>;
}

/** What was shown at first contact of the claims decided last, the newest first. A claim whose first ranking is not kept is left out. */
export function listShownForecasts(take: number): Promise<ShownForecast[]> {
  return database().$queryRaw<ShownForecast[]>`
    SELECT to_char(c.filed_at, 'YYYY-MM') AS "month", r.edition_number AS "edition", v.primary_cause AS "primary", v.contributing_causes AS "contributing",
      v.attribution::text, (r.result->>'unitDefective')::float8 AS "unitDefective",
      (SELECT jsonb_object_agg(one->>'code', one->'probability') FROM jsonb_array_elements(r.result->'causes') AS one) AS "probabilities"
    FROM verdict AS v JOIN claim AS c ON c.id = v.claim_id
    JOIN LATERAL (SELECT * FROM ranking WHERE claim_id = c.id ORDER BY created_at, id LIMIT 1) AS r
      ON r.created_at <= c.filed_at + ${FIRST_CONTACT} AND r.result->>'outcome' = 'ranked'
    WHERE v.superseded_at IS NULL AND c.stage IN ('decided', 'settled')
    ORDER BY v.decided_at DESC, v.id LIMIT ${take}`;
}
