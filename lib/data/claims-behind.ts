import "server-only";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import type { Cost } from "@/lib/domain/reporting/cohorts";
import type { Month } from "@/lib/domain/reporting/month";
import { database } from "./client";
import { Prisma } from "./generated/client";
import { all, claimConditions, claimLines, filedIn, filedUnmatchedIn, type Narrowing, narrowsByClaim, TOTAL } from "./report-lines";

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
