import "server-only";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { ContributingCount, Selection } from "@/lib/domain/reporting/causes-of-a-selection";
import type { ClaimCount } from "@/lib/domain/reporting/figures";
import { monthsLater, type Period } from "@/lib/domain/reporting/month";
import type { Outcome } from "@/lib/domain/reporting/outcomes";
import type { ShipmentCount } from "@/lib/domain/reporting/share-out";
import { database } from "./client";
import { Prisma } from "./generated/client";

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

/** Shipments of the period by kit revision, vehicle and month. */
export function countShipments(period: Period): Promise<ShipmentCount[]> {
  return database().$queryRaw<ShipmentCount[]>`
    SELECT s.kit_revision_id AS "kitRevisionId", s.vehicle_id AS "vehicleId", to_char(s.month, 'YYYY-MM') AS "month", s.shipped
    FROM (
      SELECT kit_revision_id, vehicle_id, date_trunc('month', shipped_on::timestamp) AS month, count(*)::int AS shipped
      FROM shipment AS s
      WHERE ${shippedIn(period)}
      GROUP BY 1, 2, 3
    ) AS s`;
}

/** Claims about shipments of the period, by what was shipped and how they stand. A merged claim counts with the one it is merged into. */
export function countClaims(period: Period): Promise<ClaimCount[]> {
  return database().$queryRaw<ClaimCount[]>`
    SELECT s.kit_revision_id AS "kitRevisionId", ${VEHICLE} AS "vehicleId", to_char(s.shipped_on, 'YYYY-MM') AS "month",
      ${OUTCOME} AS "outcome", v.primary_cause AS "cause", count(*)::int AS "claims"
    FROM claim AS c JOIN shipment AS s ON s.id = c.shipment_id ${STANDING_VERDICT}
    WHERE ${COUNTS} AND ${shippedIn(period)}
    GROUP BY 1, 2, 3, 4, 5`;
}

/** How often each cause contributed to another, among the same claims. */
export function countContributing(period: Period): Promise<ContributingCount[]> {
  return database().$queryRaw<ContributingCount[]>`
    SELECT s.kit_revision_id AS "kitRevisionId", ${VEHICLE} AS "vehicleId", cause AS "cause", count(*)::int AS "claims"
    FROM claim AS c JOIN shipment AS s ON s.id = c.shipment_id ${STANDING_VERDICT}
    CROSS JOIN LATERAL unnest(v.contributing_causes) AS cause
    WHERE ${COUNTS} AND ${shippedIn(period)}
    GROUP BY 1, 2, 3`;
}

/** Claims filed in the period that could not be matched with a shipment and so stand in no rate. */
export async function countUnmatched(period: Period, timeZone: string): Promise<number> {
  const [row] = await database().$queryRaw<{ claims: number }[]>`
    SELECT count(*)::int AS "claims" FROM claim AS c WHERE ${COUNTS} AND ${filedUnmatchedIn(period, timeZone)}`;
  return row?.claims ?? 0;
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
  cause: CauseCode | null;
  contributing: readonly CauseCode[];
  attribution: Attribution | null;
  origin: Origin | null;
  remedy: Remedy | null;
  /** Booked so far, by currency, in its smallest unit. */
  costs: readonly { currency: string; amountMinor: number }[];
}

export interface ClaimsWanted extends Period, Selection {
  cause?: CauseCode | undefined;
  role: "primary" | "contributing";
  outcome?: Outcome | "decided" | undefined;
  /** Claims that could not be matched with a shipment, by month of filing. */
  isUnmatched: boolean;
  timeZone: string;
}

/** The claims behind a figure, newest first. Nothing in them tells who the customer is. */
export async function listClaimsBehind(wanted: ClaimsWanted, slice: { skip: number; take: number }): Promise<{ total: number; claims: ClaimBehind[] }> {
  const conditions = [COUNTS, wanted.isUnmatched ? filedUnmatchedIn(wanted, wanted.timeZone) : shippedIn(wanted)];
  if (wanted.kit !== undefined) conditions.push(Prisma.sql`k.code = ${wanted.kit}`);
  if (wanted.revision !== undefined) conditions.push(Prisma.sql`r.revision = ${wanted.revision}`);
  if (wanted.vehicle === "unknown") conditions.push(Prisma.sql`${VEHICLE} IS NULL`);
  else if (wanted.vehicle !== undefined) conditions.push(Prisma.sql`${VEHICLE} = ${wanted.vehicle}::uuid`);
  if (wanted.cause !== undefined)
    conditions.push(wanted.role === "primary" ? Prisma.sql`v.primary_cause = ${wanted.cause}` : Prisma.sql`${wanted.cause} = ANY (v.contributing_causes)`);
  if (wanted.outcome === "decided") conditions.push(Prisma.sql`v.id IS NOT NULL`);
  else if (wanted.outcome !== undefined) conditions.push(Prisma.sql`${OUTCOME} = ${wanted.outcome}`);
  const behind = Prisma.sql`
    FROM claim AS c
    LEFT JOIN shipment AS s ON s.id = c.shipment_id
    LEFT JOIN kit_revision AS r ON r.id = coalesce(s.kit_revision_id, c.kit_revision_id)
    LEFT JOIN kit AS k ON k.id = r.kit_id
    ${STANDING_VERDICT}
    WHERE ${Prisma.join(conditions, " AND ")}`;
  const [[count], claims] = await Promise.all([
    database().$queryRaw<{ total: number }[]>`SELECT count(*)::int AS "total" ${behind}`,
    database().$queryRaw<ClaimBehind[]>`
      SELECT c.id, c.reference, c.filed_at AS "filedAt", c.stage::text, k.code AS "kit", r.revision,
        (SELECT concat_ws(' ', make, model, engine) FROM vehicle WHERE id = ${VEHICLE}) AS "vehicle",
        v.primary_cause AS "cause", coalesce(v.contributing_causes, '{}') AS "contributing",
        v.attribution::text, v.origin::text, v.remedy::text,
        coalesce((
          SELECT json_agg(json_build_object('currency', currency, 'amountMinor', amount) ORDER BY currency)
          FROM (SELECT currency, sum(amount_minor)::bigint AS amount FROM settlement WHERE claim_id = c.id GROUP BY currency) AS booked
        ), '[]') AS "costs"
      ${behind}
      ORDER BY c.filed_at DESC, c.id
      OFFSET ${slice.skip} LIMIT ${slice.take}`,
  ]);
  return { total: count?.total ?? 0, claims };
}

/** What counts as a claim in a report; a merged one counts with the one it is merged into. */
const COUNTS = Prisma.sql`c.stage NOT IN ('draft', 'merged')`;

const STANDING_VERDICT = Prisma.sql`LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL`;

/** The customer knows the vehicle better than the order did. */
const VEHICLE = Prisma.sql`coalesce(c.vehicle_id, s.vehicle_id)`;

const OUTCOME = Prisma.sql`CASE
  WHEN v.id IS NOT NULL THEN v.attribution::text
  WHEN c.stage IN ('cleared', 'withdrawn', 'lapsed') THEN 'ended'
  ELSE 'undecided' END`;

function shippedIn({ from, to }: Period): Prisma.Sql {
  return Prisma.sql`s.shipped_on >= ${`${from}-01`}::date AND s.shipped_on < ${`${monthsLater(to, 1)}-01`}::date`;
}

function filedUnmatchedIn({ from, to }: Period, timeZone: string): Prisma.Sql {
  return Prisma.sql`c.shipment_id IS NULL
    AND c.filed_at >= ${`${from}-01`}::timestamp AT TIME ZONE ${timeZone}
    AND c.filed_at < ${`${monthsLater(to, 1)}-01`}::timestamp AT TIME ZONE ${timeZone}`;
}
