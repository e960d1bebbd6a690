import "server-only";
import type { Origin } from "@/lib/domain/diagnosis/attributions";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { ShippedOfBatch } from "@/lib/domain/reporting/breakdowns";
import type { CauseCost, CauseCount } from "@/lib/domain/reporting/causes-of-a-selection";
import type { Cohort, Cost } from "@/lib/domain/reporting/cohorts";
import type { Month, Period } from "@/lib/domain/reporting/month";
import type { Outcome } from "@/lib/domain/reporting/outcomes";
import { database } from "./client";
import { Prisma } from "./generated/client";
import { all, causeConditions, causeLines, claimConditions, claimLines, COUNT_EACH, costLines, filedUnmatchedIn, type Narrowing, narrowsByClaim, narrowsByPart, narrowsByService, placeConditions, serviceConditions, shippedConditions, SUM_EACH, TOTAL, totalOf } from "./report-lines";

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
