import "server-only";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { ShippedOfBatch } from "@/lib/domain/reporting/breakdowns";
import type { CauseCost, CauseCount } from "@/lib/domain/reporting/causes-of-a-selection";
import type { Cohort, Cost } from "@/lib/domain/reporting/cohorts";
import { type Month, monthsLater, type Period } from "@/lib/domain/reporting/month";
import { OUTCOMES, type Outcome } from "@/lib/domain/reporting/outcomes";
import { database } from "./client";
import { Prisma } from "./generated/client";
import { PARTS_OF_A_CLAIM } from "./report-cells";

/** What is sold, in the order of the lists. */
export async function findReportCatalogue(): Promise<ReportCatalogue> {
  const [kits, vehicles] = await Promise.all([
    database().kit.findMany({
      orderBy: { code: "asc" },
      select: {
        id: true,
        code: true,
        name: true,
        revisions: { orderBy: [{ introducedOn: "asc" }, { revision: "asc" }], select: { id: true, revision: true, introducedOn: true, change: true } },
        fitments: { select: { vehicleId: true } },
      },
    }),
    database().vehicle.findMany({
      orderBy: [{ make: "asc" }, { model: "asc" }, { engine: "asc" }, { yearFrom: "asc" }],
      select: { id: true, make: true, model: true, engine: true },
    }),
  ]);
  return {
    kits: kits.map(({ fitments, revisions, ...kit }) => ({
      ...kit,
      vehicleIds: fitments.map(({ vehicleId }) => vehicleId),
      revisions: revisions.map(({ introducedOn, ...revision }) => ({ ...revision, introducedOn: introducedOn.toISOString().slice(0, 10) })),
    })),
    vehicles,
  };
}

/** What a report narrows by; what is left out is not narrowed. */
export interface Narrowing extends Period {
  /** The kit revisions, where a kit is asked for. */
  kitRevisionIds?: readonly string[] | undefined;
  /** A vehicle's id, or `unknown`. */
  vehicle?: string | undefined;
  batch?: string | undefined;
  cause?: CauseCode | undefined;
  outcome?: Outcome | "decided" | undefined;
  origin?: Origin | undefined;
  fitter?: string | undefined;
  serviceFrom?: number | undefined;
  serviceTo?: number | undefined;
}

interface PlaceKey {
  kitRevisionId: string;
  vehicleId: string | null;
}

/** A cohort in the making. */
interface Place extends PlaceKey, Pick<Cohort, "outcomes" | "probable"> {
  months: { month: Month; shipped: number; claims: number }[];
  costs: Cost[];
}

/**
 * What was shipped and what came of it, by kit revision and vehicle. Shipments are narrowed by kit and batch alone, since
 * nothing else is known of units without a claim.
 */
export async function findCohorts(wanted: Narrowing): Promise<Cohort[]> {
  const [shipped, claimed, costs, probable] = await Promise.all([
    database().$queryRaw<(PlaceKey & { months: string })[]>`
      SELECT kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", ${byMonth(Prisma.raw("units"))} AS "months"
      FROM (SELECT kit_revision_id, vehicle_id, month, sum(units) AS units FROM shipped_cell WHERE ${all(shippedConditions(wanted))} GROUP BY 1, 2, 3) AS shipped
      WHERE units > 0 GROUP BY 1, 2`,
    database().$queryRaw<(PlaceKey & { months: string } & Record<Outcome, number>)[]>`
      SELECT kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", ${byMonth(TOTAL)} AS "months", ${SUM_EACH}
      FROM (${claimLines(wanted)}) AS line WHERE ${TOTAL} > 0 GROUP BY 1, 2`,
    database().$queryRaw<(PlaceKey & Cost)[]>`
      SELECT kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", currency, sum(amount_minor)::float8 AS "amountMinor"
      FROM (${costLines(wanted, false)}) AS cost GROUP BY 1, 2, 3 HAVING sum(amount_minor) <> 0`,
    wanted.cause === undefined
      ? []
      : database().$queryRaw<(PlaceKey & { probable: number })[]>`
      SELECT kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", sum(claims)::float8 AS "probable"
      FROM (${causeLines({ ...wanted, outcome: undefined, origin: undefined })}) AS line WHERE role = 'probable' GROUP BY 1, 2 HAVING sum(claims) > 0`,
  ]);
  const places = new Map<string, Place>();
  const placeOf = ({ kitRevisionId, vehicleId }: PlaceKey) => {
    const key = `${kitRevisionId} ${vehicleId}`;
    const place: Place = places.get(key) ?? { kitRevisionId, vehicleId, months: [], outcomes: {}, costs: [], probable: 0 };
    places.set(key, place);
    return place;
  };
  const monthOf = monthReader();
  for (const { months, ...at } of shipped) placeOf(at).months = readByMonth(months, monthOf).map(({ month, count }) => ({ month, shipped: count, claims: 0 }));
  for (const { kitRevisionId, vehicleId, months, ...outcomes } of claimed) {
    const place = placeOf({ kitRevisionId, vehicleId });
    place.outcomes = outcomes;
    for (const { month, count } of readByMonth(months, monthOf)) {
      const line = place.months.find((shippedThen) => shippedThen.month === month);
      if (line) line.claims += count;
      else place.months.push({ month, shipped: 0, claims: count });
    }
  }
  for (const { currency, amountMinor, ...at } of costs) placeOf(at).costs.push({ currency, amountMinor });
  for (const { probable: weight, ...at } of probable) placeOf(at).probable = weight;
  return [...places.values()];
}

/** Days and counts in one text, "2026-01-01 120 2026-02-01 80": tens of thousands are read much sooner than as rows or JSON. */
function byMonth(count: Prisma.Sql): Prisma.Sql {
  return Prisma.sql`string_agg(month || ' ' || ${count}, ' ')`;
}

function readByMonth(text: string, monthOf: (day: string) => Month): { month: Month; count: number }[] {
  const parts = text.split(" ");
  return Array.from({ length: parts.length / 2 }, (_, index) => ({ month: monthOf(parts[index * 2] ?? ""), count: Number(parts[index * 2 + 1]) }));
}

/** The month of a day, the very same text each time, which makes it quick as a key. */
function monthReader(): (day: string) => Month {
  const known = new Map<string, Month>();
  return (day) => {
    const month = known.get(day) ?? day.slice(0, 7);
    known.set(day, month);
    return month;
  };
}

/** How often each cause was named or is probable, by kit revision and vehicle. */
export function countCauses(wanted: Narrowing): Promise<CauseCount[]> {
  return database().$queryRaw<CauseCount[]>`
    SELECT kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", role::text, cause, sum(claims)::float8 AS "claims"
    FROM (${causeLines(wanted)}) AS line GROUP BY 1, 2, 3, 4 HAVING sum(claims) > 0`;
}

/** What claims cost, by primary cause. */
export function sumCosts(wanted: Narrowing): Promise<CauseCost[]> {
  return database().$queryRaw<CauseCost[]>`
    SELECT cause, currency, sum(amount_minor)::float8 AS "amountMinor" FROM (${costLines(wanted, true)}) AS cost GROUP BY 1, 2 HAVING sum(amount_minor) <> 0`;
}

/** Units shipped by batch, kit revision and vehicle; of a vehicle with the unknown, which are shared out to it. */
export function countShippedByBatch(wanted: Narrowing): Promise<ShippedOfBatch[]> {
  const { vehicle } = wanted;
  const conditions = shippedConditions(wanted);
  if (vehicle !== undefined) conditions.push(vehicle === "unknown" ? Prisma.sql`vehicle_id IS NULL` : Prisma.sql`(vehicle_id = ${vehicle}::uuid OR vehicle_id IS NULL)`);
  return database().$queryRaw<ShippedOfBatch[]>`
    SELECT kit_revision_id AS "kitRevisionId", vehicle_id AS "vehicleId", batch, sum(units)::int AS "units"
    FROM shipped_cell WHERE ${all(conditions)} GROUP BY 1, 2, 3 HAVING sum(units) > 0`;
}

export interface FitterCount {
  /** Null where no fitter was told. */
  fitterId: string | null;
  name: string | null;
  place: string | null;
  claims: number;
  outcomes: Readonly<Record<Outcome, number>>;
}

export interface Breakdown {
  byBatch: readonly { batch: string | null; claims: number }[];
  byMonthInService: readonly { monthInService: number; claims: number }[];
  /** Most claims first; of all fitters, those with the most. */
  byFitter: readonly FitterCount[];
  byOrigin: readonly { origin: Origin; claims: number }[];
}

/** The claims of a selection by batch, month in service, fitter and origin. */
export async function breakDownClaims(wanted: Narrowing, mostFitters: number): Promise<Breakdown> {
  const where = all(claimConditions(wanted));
  const [byBatch, byMonthInService, byFitter, byOrigin] = await Promise.all([
    database().$queryRaw<{ batch: string | null; claims: number }[]>`SELECT batch, count(*)::int AS "claims" FROM report_claim AS line WHERE ${where} GROUP BY 1`,
    narrowsByClaim(wanted) || narrowsByPart(wanted)
      ? database().$queryRaw<{ monthInService: number; claims: number }[]>`SELECT month_in_service AS "monthInService", count(*)::int AS "claims" FROM report_claim AS line WHERE ${where} GROUP BY 1`
      : database().$queryRaw<{ monthInService: number; claims: number }[]>`
      SELECT month_in_service AS "monthInService", sum(${totalOf(wanted.outcome)})::int AS "claims"
      FROM aged_cell AS line WHERE ${all([...placeConditions(wanted), ...serviceConditions(wanted)])} GROUP BY 1 HAVING sum(${totalOf(wanted.outcome)}) > 0`,
    database().$queryRaw<({ fitterId: string | null; name: string | null; place: string | null; claims: number } & Record<Outcome, number>)[]>`
      SELECT counted.*, fitter.name, fitter.place
      FROM (
        SELECT fitter_id AS "fitterId", count(*)::int AS "claims", ${COUNT_EACH}
        FROM report_claim AS line WHERE ${where} GROUP BY 1 ORDER BY 2 DESC, 1 LIMIT ${mostFitters}
      ) AS counted LEFT JOIN fitter ON fitter.id = counted."fitterId" ORDER BY counted.claims DESC, fitter.name`,
    narrowsByClaim(wanted) || narrowsByService(wanted)
      ? database().$queryRaw<{ origin: Origin; claims: number }[]>`SELECT origin::text, count(*)::int AS "claims" FROM report_claim AS line WHERE ${where} AND origin IS NOT NULL GROUP BY 1 ORDER BY 2 DESC`
      : database().$queryRaw<{ origin: Origin; claims: number }[]>`
      SELECT origin::text, (sum(millionths) / 1000000)::int AS "claims"
      FROM cause_cell AS line WHERE role = 'primary' AND origin IS NOT NULL AND ${all(causeConditions(wanted))} GROUP BY 1 HAVING sum(millionths) > 0 ORDER BY 2 DESC`,
  ]);
  return { byBatch, byMonthInService, byFitter: byFitter.map(({ fitterId, name, place, claims, ...outcomes }) => ({ fitterId, name, place, claims, outcomes })), byOrigin };
}

/** A fitter by name, or null. */
export function findFitter(id: string): Promise<{ id: string; name: string; place: string } | null> {
  return database().fitter.findUnique({ where: { id }, select: { id: true, name: true, place: true } });
}

/** Claims filed in the period that could not be matched with a shipment and so stand in no rate. */
export async function countUnmatched(period: Period, timeZone: string): Promise<number> {
  const [row] = await database().$queryRaw<{ claims: number }[]>`SELECT count(*)::int AS "claims" FROM report_claim AS line WHERE ${filedUnmatchedIn(period, timeZone)}`;
  return row?.claims ?? 0;
}

/** Changes that the cells do not hold yet. Usually none: the worker takes them over within seconds. */
export async function countWaitingChanges(): Promise<number> {
  const [row] = await database().$queryRaw<{ waiting: number }[]>`
    SELECT ((SELECT count(*) FROM (SELECT FROM report_mark LIMIT 1000) AS mark) + (SELECT count(*) FROM (SELECT FROM shipped_change LIMIT 1000) AS change))::int AS "waiting"`;
  return row?.waiting ?? 0;
}

export interface ClaimBehind {
  id: string;
  reference: string;
  filedAt: Date;
  stage: ClaimStage;
  kit: string | null;
  revision: string | null;
  /** Make, model and engine. */
  vehicle: string | null;
  batch: string | null;
  monthInService: number | null;
  cause: CauseCode | null;
  contributing: readonly CauseCode[];
  /** Of an undecided claim, the most probable first, in millionths. */
  probable: readonly { cause: CauseCode; millionths: number }[];
  attribution: Attribution | null;
  origin: Origin | null;
  remedy: Remedy | null;
  /** Booked so far, by currency, in its smallest unit. */
  costs: readonly Cost[];
  /** A few of its photos, oldest first. */
  photoIds: readonly string[];
}

export interface ClaimsWanted extends Narrowing {
  role: "primary" | "contributing" | "probable";
  /** Claims that could not be matched with a shipment, by month of filing. */
  isUnmatched: boolean;
  /** The month of filing, by UTC as in the cells. */
  filed?: Month | undefined;
  timeZone: string;
}

/** The claims behind a figure, newest first. Nothing in them tells who the customer is. */
export async function listClaimsBehind({ role, isUnmatched, timeZone, filed, ...wanted }: ClaimsWanted, slice: { skip: number; take: number }): Promise<{ total: number; claims: ClaimBehind[] }> {
  const { cause } = wanted;
  const narrowed = claimConditions(role === "primary" ? wanted : { ...wanted, cause: undefined }, !isUnmatched);
  if (isUnmatched) narrowed.push(filedUnmatchedIn(wanted, timeZone));
  if (filed !== undefined) narrowed.push(filedIn({ from: filed, to: filed }, "UTC"));
  if (cause !== undefined && role === "contributing") narrowed.push(Prisma.sql`${cause} = ANY (line.contributing)`);
  if (cause !== undefined && role === "probable") narrowed.push(Prisma.sql`line.probable @> ${JSON.stringify([{ cause }])}::jsonb`);
  const where = all(narrowed);
  const isInCells = !isUnmatched && filed === undefined && !narrowsByClaim(wanted) && (role === "primary" || cause === undefined);
  const [[count], claims] = await Promise.all([
    isInCells
      ? database().$queryRaw<{ total: number }[]>`SELECT coalesce(sum(${TOTAL}), 0)::int AS "total" FROM (${claimLines(wanted)}) AS line`
      : database().$queryRaw<{ total: number }[]>`SELECT count(*)::int AS "total" FROM report_claim AS line WHERE ${where}`,
    database().$queryRaw<(Omit<ClaimBehind, "costs"> & { costs: Readonly<Record<string, number>> })[]>`
      SELECT c.id, c.reference, line.filed_at AS "filedAt", c.stage::text, k.code AS "kit", r.revision,
        (SELECT concat_ws(' ', make, model, engine) FROM vehicle WHERE id = line.vehicle_id) AS "vehicle",
        line.batch, line.month_in_service AS "monthInService", line.cause, line.contributing,
        (SELECT coalesce(json_agg(part ORDER BY (part->>'millionths')::int DESC), '[]') FROM jsonb_array_elements(line.probable) AS part) AS "probable",
        v.attribution::text, v.origin::text, v.remedy::text, line.costs,
        ARRAY(SELECT id FROM photo WHERE claim_id = c.id ORDER BY created_at, id LIMIT 3) AS "photoIds"
      FROM (SELECT claim_id FROM report_claim AS line WHERE ${where} ORDER BY filed_at DESC, claim_id OFFSET ${slice.skip} LIMIT ${slice.take}) AS page
      JOIN report_claim AS line USING (claim_id)
      JOIN claim AS c ON c.id = line.claim_id
      LEFT JOIN kit_revision AS r ON r.id = line.kit_revision_id
      LEFT JOIN kit AS k ON k.id = r.kit_id
      LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL
      ORDER BY line.filed_at DESC, c.id`,
  ]);
  return { total: count?.total ?? 0, claims: claims.map(({ costs, ...claim }) => ({ ...claim, costs: Object.entries(costs).map(([currency, amountMinor]) => ({ currency, amountMinor })) })) };
}

// The outcomes are a closed set of our own words, so they may stand in the text of a statement.
const each = (column: (outcome: Outcome) => string) => Prisma.raw(OUTCOMES.map((outcome) => `${column(outcome)} AS ${outcome}`).join(", "));
const TOTAL = Prisma.raw(`(${OUTCOMES.join(" + ")})`);
const SUM_EACH = each((outcome) => `sum(${outcome})::int`);
const COUNT_EACH = each((outcome) => `(count(*) FILTER (WHERE outcome = '${outcome}'))::int`);
const CAUSED_EACH = each((outcome) => `(coalesce(sum(millionths) FILTER (WHERE attribution = '${outcome}'), 0) / 1000000)::int`);

/**
 * Claims by kit revision, vehicle, month of shipping and outcome, from the smallest cells that can tell: a whole period
 * costs by cells. A batch and a fitter are known of claims alone, so these are counted one by one.
 */
function claimLines(wanted: Narrowing): Prisma.Sql {
  const isOfPart = narrowsByPart(wanted);
  if (narrowsByClaim(wanted) || (isOfPart && narrowsByService(wanted)))
    return Prisma.sql`SELECT kit_revision_id, vehicle_id, month, ${COUNT_EACH} FROM report_claim AS line WHERE ${all(claimConditions(wanted))} GROUP BY 1, 2, 3`;
  if (isOfPart)
    return Prisma.sql`
      SELECT kit_revision_id, vehicle_id, month, ${CAUSED_EACH}
      FROM cause_cell AS line WHERE role = 'primary' AND ${all(causeConditions(wanted))} GROUP BY 1, 2, 3`;
  const cells = Prisma.raw(narrowsByService(wanted) ? "aged_cell" : "claim_cell");
  return Prisma.sql`SELECT kit_revision_id, vehicle_id, month, ${each((outcome) => (isWanted(outcome, wanted.outcome) ? outcome : "0"))} FROM ${cells} AS line WHERE ${all([...placeConditions(wanted), ...serviceConditions(wanted)])}`;
}

/** All claims of a cell, or those of the outcome asked for. */
function totalOf(wanted: Narrowing["outcome"]): Prisma.Sql {
  return Prisma.raw(`(${OUTCOMES.filter((outcome) => isWanted(outcome, wanted)).join(" + ")})`);
}

function isWanted(outcome: Outcome, wanted: Narrowing["outcome"]): boolean {
  return wanted === undefined || outcome === wanted || (wanted === "decided" && outcome !== "undecided" && outcome !== "ended");
}

/** Causes by role, kit revision, vehicle and month of shipping, `claims` a fraction where the role is probable. */
function causeLines(wanted: Narrowing): Prisma.Sql {
  if (!narrowsByClaim(wanted) && !narrowsByService(wanted))
    return Prisma.sql`SELECT kit_revision_id, vehicle_id, role, cause, millionths / 1000000.0 AS claims FROM cause_cell AS line WHERE ${all(causeConditions(wanted))}`;
  const { cause: _cause, outcome: _outcome, origin: _origin, ...ofClaims } = wanted;
  return Prisma.sql`
    SELECT line.kit_revision_id, line.vehicle_id, part.role, part.cause, part.millionths / 1000000.0 AS claims
    FROM report_claim AS line CROSS JOIN LATERAL (${Prisma.raw(PARTS_OF_A_CLAIM)}) AS part (role, cause, attribution, origin, millionths)
    WHERE ${all([...claimConditions(ofClaims), ...partConditions(Prisma.raw("part"), Prisma.raw("part.attribution"), wanted)])}`;
}

/** Money booked, by kit revision, vehicle and currency, and by primary cause where that is asked for. */
function costLines(wanted: Narrowing, isByCause: boolean): Prisma.Sql {
  const isByPlace = !isByCause && !narrowsByPart(wanted) && wanted.outcome === undefined;
  if (isByPlace && !narrowsByClaim(wanted)) {
    const cells = Prisma.raw(narrowsByService(wanted) ? "aged_spent_cell" : "spent_cell");
    return Prisma.sql`SELECT kit_revision_id, vehicle_id, currency, amount_minor FROM ${cells} AS line WHERE ${all([...placeConditions(wanted), ...serviceConditions(wanted)])}`;
  }
  if (!narrowsByClaim(wanted) && !narrowsByService(wanted))
    return Prisma.sql`
      SELECT kit_revision_id, vehicle_id, cause, currency, amount_minor
      FROM cost_cell AS line WHERE ${all([...placeConditions(wanted), ...partConditions(Prisma.raw("line"), Prisma.raw("line.outcome"), wanted)])}`;
  return Prisma.sql`
    SELECT kit_revision_id, vehicle_id, cause, booked.key AS currency, booked.value::bigint AS amount_minor
    FROM report_claim AS line CROSS JOIN LATERAL jsonb_each_text(line.costs) AS booked WHERE ${all(claimConditions(wanted))}`;
}

/** Whether a report narrows by what only single claims tell. */
function narrowsByClaim({ batch, fitter }: Narrowing): boolean {
  return batch !== undefined || fitter !== undefined;
}

function narrowsByService({ serviceFrom, serviceTo }: Narrowing): boolean {
  return serviceFrom !== undefined || serviceTo !== undefined;
}

function narrowsByPart({ cause, origin }: Narrowing): boolean {
  return cause !== undefined || origin !== undefined;
}

export const all = (conditions: readonly Prisma.Sql[]) => Prisma.join([...conditions], " AND ");

export function shippedConditions({ from, to, kitRevisionIds, batch }: Narrowing): Prisma.Sql[] {
  const conditions = [Prisma.sql`month >= ${`${from}-01`}::date AND month <= ${`${to}-01`}::date`];
  if (kitRevisionIds !== undefined) conditions.push(Prisma.sql`kit_revision_id = ANY (${[...kitRevisionIds]}::uuid[])`);
  if (batch !== undefined) conditions.push(Prisma.sql`batch = ${batch}`);
  return conditions;
}

/** Kit, vehicle and month; of a line that has no batch. */
export function placeConditions({ vehicle, ...wanted }: Narrowing): Prisma.Sql[] {
  const conditions = shippedConditions({ ...wanted, batch: undefined });
  if (vehicle === "unknown") conditions.push(Prisma.sql`vehicle_id IS NULL`);
  else if (vehicle !== undefined) conditions.push(Prisma.sql`vehicle_id = ${vehicle}::uuid`);
  return conditions;
}

function causeConditions(wanted: Narrowing): Prisma.Sql[] {
  return [...placeConditions(wanted), ...partConditions(Prisma.raw("line"), Prisma.raw("line.attribution"), wanted)];
}

/** Cause, outcome and origin. */
function partConditions(line: Prisma.Sql, attribution: Prisma.Sql, { cause, outcome, origin }: Narrowing): Prisma.Sql[] {
  const conditions: Prisma.Sql[] = [];
  if (cause !== undefined) conditions.push(Prisma.sql`${line}.cause = ${cause}`);
  if (origin !== undefined) conditions.push(Prisma.sql`${line}.origin = ${origin}::origin`);
  if (outcome === "decided") conditions.push(Prisma.sql`${attribution} NOT IN ('undecided', 'ended')`);
  else if (outcome !== undefined) conditions.push(Prisma.sql`${attribution} = ${outcome}`);
  return conditions;
}

/** Everything a claim's own line can be narrowed by. */
export function claimConditions({ batch, fitter, ...wanted }: Narrowing, isMatched = true): Prisma.Sql[] {
  const [month, ...place] = placeConditions(wanted);
  const conditions = [...(month && isMatched ? [month] : []), ...place, ...partConditions(Prisma.raw("line"), Prisma.raw("line.outcome"), wanted), ...serviceConditions(wanted)];
  if (batch !== undefined) conditions.push(Prisma.sql`line.batch = ${batch}`);
  if (fitter !== undefined) conditions.push(Prisma.sql`line.fitter_id = ${fitter}::uuid`);
  return conditions;
}

function serviceConditions({ serviceFrom, serviceTo }: Narrowing): Prisma.Sql[] {
  const conditions: Prisma.Sql[] = [];
  if (serviceFrom !== undefined) conditions.push(Prisma.sql`line.month_in_service >= ${serviceFrom}`);
  if (serviceTo !== undefined) conditions.push(Prisma.sql`line.month_in_service <= ${serviceTo}`);
  return conditions;
}

function filedUnmatchedIn({ from, to }: Period, timeZone: string): Prisma.Sql {
  return Prisma.sql`line.month IS NULL AND ${filedIn({ from, to }, timeZone)}`;
}

function filedIn({ from, to }: Period, timeZone: string): Prisma.Sql {
  return Prisma.sql`line.filed_at >= ${`${from}-01`}::timestamp AT TIME ZONE ${timeZone}
    AND line.filed_at < ${`${monthsLater(to, 1)}-01`}::timestamp AT TIME ZONE ${timeZone}`;
}
