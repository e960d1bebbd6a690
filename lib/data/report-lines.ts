import "server-only";
import type { Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { monthsLater, type Period } from "@/lib/domain/reporting/month";
import { OUTCOMES, type Outcome } from "@/lib/domain/reporting/outcomes";
import { Prisma } from "./generated/client";
import { PARTS_OF_A_CLAIM } from "./report-cells";

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

// The outcomes are a closed set of our own words, so they may stand in the text of a statement.
const each = (column: (outcome: Outcome) => string) => Prisma.raw(OUTCOMES.map((outcome) => `${column(outcome)} AS ${outcome}`).join(", "));
export const TOTAL = Prisma.raw(`(${OUTCOMES.join(" + ")})`);
export const SUM_EACH = each((outcome) => `sum(${outcome})::int`);
export const COUNT_EACH = each((outcome) => `(count(*) FILTER (WHERE outcome = '${outcome}'))::int`);
const CAUSED_EACH = each((outcome) => `(coalesce(sum(millionths) FILTER (WHERE attribution = '${outcome}'), 0) / 1000000)::int`);

/**
 * Claims by kit revision, vehicle, month of shipping and outcome, from the smallest cells that can tell: a whole period
 * costs by cells. A batch and a fitter are known of claims alone, so these are counted one by one.
 */
export function claimLines(wanted: Narrowing): Prisma.Sql {
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
export function totalOf(wanted: Narrowing["outcome"]): Prisma.Sql {
  return Prisma.raw(`(${OUTCOMES.filter((outcome) => isWanted(outcome, wanted)).join(" + ")})`);
}

function isWanted(outcome: Outcome, wanted: Narrowing["outcome"]): boolean {
  return wanted === undefined || outcome === wanted || (wanted === "decided" && outcome !== "undecided" && outcome !== "ended");
}

/** Causes by role, kit revision, vehicle and month of shipping, `claims` a fraction where the role is probable. */
export function causeLines(wanted: Narrowing): Prisma.Sql {
  if (!narrowsByClaim(wanted) && !narrowsByService(wanted))
    return Prisma.sql`SELECT kit_revision_id, vehicle_id, role, cause, millionths / 1000000.0 AS claims FROM cause_cell AS line WHERE ${all(causeConditions(wanted))}`;
  const { cause: _cause, outcome: _outcome, origin: _origin, ...ofClaims } = wanted;
  return Prisma.sql`
    SELECT line.kit_revision_id, line.vehicle_id, part.role, part.cause, part.millionths / 1000000.0 AS claims
    FROM report_claim AS line CROSS JOIN LATERAL (${Prisma.raw(PARTS_OF_A_CLAIM)}) AS part (role, cause, attribution, origin, millionths)
    WHERE ${all([...claimConditions(ofClaims), ...partConditions(Prisma.raw("part"), Prisma.raw("part.attribution"), wanted)])}`;
}

/** Money booked, by kit revision, vehicle and currency, and by primary cause where that is asked for. */
export function costLines(wanted: Narrowing, isByCause: boolean): Prisma.Sql {
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
export function narrowsByClaim({ batch, fitter }: Narrowing): boolean {
  return batch !== undefined || fitter !== undefined;
}

export function narrowsByService({ serviceFrom, serviceTo }: Narrowing): boolean {
  return serviceFrom !== undefined || serviceTo !== undefined;
}

export function narrowsByPart({ cause, origin }: Narrowing): boolean {
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

export function causeConditions(wanted: Narrowing): Prisma.Sql[] {
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

export function serviceConditions({ serviceFrom, serviceTo }: Narrowing): Prisma.Sql[] {
  const conditions: Prisma.Sql[] = [];
  if (serviceFrom !== undefined) conditions.push(Prisma.sql`line.month_in_service >= ${serviceFrom}`);
  if (serviceTo !== undefined) conditions.push(Prisma.sql`line.month_in_service <= ${serviceTo}`);
  return conditions;
}

export function filedUnmatchedIn({ from, to }: Period, timeZone: string): Prisma.Sql {
  return Prisma.sql`line.month IS NULL AND ${filedIn({ from, to }, timeZone)}`;
}

export function filedIn({ from, to }: Period, timeZone: string): Prisma.Sql {
  return Prisma.sql`line.filed_at >= ${`${from}-01`}::timestamp AT TIME ZONE ${timeZone}
    AND line.filed_at < ${`${monthsLater(to, 1)}-01`}::timestamp AT TIME ZONE ${timeZone}`;
}
