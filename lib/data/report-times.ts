import "server-only";
import { kindOfRemedy } from "@/lib/domain/claims/bookings";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import type { CostSpread } from "@/lib/domain/reporting/forecast";
import type { ShippedLine } from "@/lib/domain/reporting/filed-claims";
import type { Month } from "@/lib/domain/reporting/month";
import { database } from "./client";
import { Prisma } from "./generated/client";
import { all, claimConditions, type Narrowing, placeConditions, shippedConditions } from "./report-lines";

const MONTH = Prisma.raw("to_char(month, 'YYYY-MM')");
/** From a line to its kit. */
const OF_KIT = Prisma.raw("JOIN kit_revision AS revision ON revision.id = line.kit_revision_id JOIN kit ON kit.id = revision.kit_id");

/** What was shipped by kit revision and month, and by vehicle where one is asked for: the unknown are shared out to it. */
export function countShipped(wanted: Narrowing): Promise<ShippedLine[]> {
  const vehicle = wanted.vehicle === undefined ? Prisma.sql`NULL` : Prisma.sql`vehicle_id`;
  return database().$queryRaw<ShippedLine[]>`
    SELECT kit_revision_id AS "kitRevisionId", ${vehicle} AS "vehicleId", ${MONTH} AS "month", sum(units)::int AS "units"
    FROM shipped_cell WHERE ${all(shippedConditions(wanted))} GROUP BY 1, 2, 3 HAVING sum(units) > 0`;
}

export interface FiledCount {
  /** The kit's code, where kits are told apart. */
  kit: string | null;
  month: Month;
  filed: Month;
  claims: number;
}

/** Claims by months of shipping and filing. */
export async function countByFiling(wanted: Narrowing, each: "kit" | "all"): Promise<FiledCount[]> {
  const kit = each === "kit" ? Prisma.sql`kit.code` : Prisma.sql`NULL`;
  return database().$queryRaw<FiledCount[]>`
    SELECT "kit", ${MONTH} AS "month", to_char(filed, 'YYYY-MM') AS "filed", claims
    FROM (SELECT ${kit} AS "kit", month, filed, sum(claims)::int AS claims FROM (${lines(wanted)}) AS line ${each === "kit" ? OF_KIT : Prisma.empty} GROUP BY 1, 2, 3) AS counted
    WHERE claims > 0`;
}

export interface ServiceCount {
  /** The kit's code, or the primary cause, where they are told apart. */
  of: string | null;
  month: Month;
  monthInService: number;
  claims: number;
}

/** Claims by month of shipping and month in service. */
export async function countByService(wanted: Narrowing, each: "kit" | "cause"): Promise<ServiceCount[]> {
  const counted =
    each === "kit"
      ? Prisma.sql`SELECT kit.code AS "of", month, month_in_service, claims FROM (${lines(wanted)}) AS line ${OF_KIT}`
      : Prisma.sql`SELECT cause AS "of", month, month_in_service, claims FROM (${singleClaims(wanted)}) AS line`;
  return database().$queryRaw<ServiceCount[]>`
    SELECT "of", ${MONTH} AS "month", "monthInService", claims
    FROM (SELECT "of", month, month_in_service AS "monthInService", sum(claims)::int AS claims FROM (${counted}) AS counted GROUP BY 1, 2, 3) AS summed
    WHERE claims > 0`;
}

/** How far costs spread from claim to claim, by kit and currency, of claims that money was booked for. */
export async function sumCostSpread(wanted: Narrowing): Promise<(CostSpread & { kit: string })[]> {
  const booked =
    wanted.batch === undefined
      ? Prisma.sql`SELECT kit_revision_id, currency, claims, amount_minor, squared_minor FROM spent_cell AS line WHERE ${all(placeConditions(wanted))}`
      : Prisma.sql`SELECT kit_revision_id, booked.key AS currency, 1 AS claims, booked.value::bigint AS amount_minor, booked.value::numeric * booked.value::numeric AS squared_minor
          FROM report_claim AS line CROSS JOIN LATERAL jsonb_each_text(line.costs) AS booked WHERE ${all(claimConditions(wanted))}`;
  return database().$queryRaw<(CostSpread & { kit: string })[]>`
    SELECT kit.code AS "kit", currency, sum(claims)::int AS "paid", sum(amount_minor)::float8 AS "totalMinor", sum(squared_minor)::float8 AS "squaredMinor"
    FROM (${booked}) AS line ${OF_KIT} GROUP BY 1, 2 HAVING sum(claims) > 0`;
}

/** Decided, not settled, and by a remedy that costs something. */
const PROMISED = Prisma.sql`SELECT claim.id FROM claim JOIN verdict ON verdict.claim_id = claim.id AND superseded_at IS NULL WHERE stage = 'decided' AND remedy::text IN (${Prisma.join(REMEDIES.filter((remedy) => kindOfRemedy(remedy) !== null))})`;

/** Claims that have come to a verdict or another end, by kit; not those whose money is still to come, which would look cheap. */
export async function countEnded(wanted: Narrowing): Promise<{ kit: string; ended: number }[]> {
  const ended =
    wanted.batch === undefined
      ? Prisma.sql`SELECT kit_revision_id, sum(fit + kit + engine + unit + normal + transit + elsewhere + ended) AS ended FROM claim_cell AS line WHERE ${all(placeConditions(wanted))} GROUP BY 1`
      : Prisma.sql`SELECT kit_revision_id, count(*) AS ended FROM report_claim AS line WHERE outcome <> 'undecided' AND ${all(claimConditions(wanted))} GROUP BY 1`;
  const waiting = Prisma.sql`SELECT kit_revision_id, -count(*) FROM report_claim AS line WHERE line.costs = '{}' AND line.claim_id IN (${PROMISED}) AND ${all(claimConditions(wanted))} GROUP BY 1`;
  return database().$queryRaw<{ kit: string; ended: number }[]>`SELECT kit.code AS "kit", greatest(0, sum(ended))::int AS "ended" FROM (${ended} UNION ALL ${waiting}) AS line ${OF_KIT} GROUP BY 1`;
}

/** Lines of claims from the smallest cells that can tell; what cells do not know is counted one by one. */
function lines(wanted: Narrowing): Prisma.Sql {
  const { vehicle, batch, cause, outcome, origin } = wanted;
  if ([vehicle, batch, cause, outcome, origin].some((narrowed) => narrowed !== undefined)) return singleClaims(wanted);
  return Prisma.sql`SELECT kit_revision_id, month, filed_month AS filed, month_in_service, claims FROM filed_cell WHERE ${all(shippedConditions(wanted))}`;
}

function singleClaims(wanted: Narrowing): Prisma.Sql {
  return Prisma.sql`
    SELECT kit_revision_id, cause, month, date_trunc('month', filed_at AT TIME ZONE 'UTC')::date AS filed, month_in_service, 1 AS claims
    FROM report_claim AS line WHERE ${all(claimConditions(wanted))}`;
}
