import "server-only";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { VerdictWay } from "@/lib/domain/claims/verdict";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode, FindingCode } from "@/lib/domain/diagnosis/knowledge";
import type { Stakes } from "@/lib/domain/diagnosis/stakes";
import { monthsLater, type Period } from "@/lib/domain/reporting/month";
import { database } from "./client";
import { Prisma } from "./generated/client";

export interface DeskRow {
  id: string;
  reference: string;
  stage: ClaimStage;
  kit: string | null;
  vehicle: string | null;
  filedAt: Date;
  promisedAt: Date;
  firstAnswerAt: Date | null;
  firstDecidedAt: Date | null;
  endedAt: Date | null;
  cause: CauseCode | null;
  attribution: Attribution | null;
  origin: Origin | null;
  remedy: Remedy | null;
  way: VerdictWay | null;
  reason: string | null;
  decidedBy: string | null;
  /** What the ranking put first on which the standing verdict was given. */
  leader: CauseCode | null;
  isInspected: boolean;
  benchShowsFault: boolean;
  returnAuthorised: boolean;
  wasSuspected: boolean;
  firstCause: CauseCode | null;
  firstAttribution: Attribution | null;
  secondCause: CauseCode | null;
  secondAttribution: Attribution | null;
}

export interface DeskRowsWanted extends Period {
  kit?: string | undefined;
  vehicle?: string | undefined;
  timeZone: string;
  stakes: Stakes;
  /** Bench findings that speak of a fault of the unit, each with the answer that does. */
  faults: readonly { finding: FindingCode; answer: string }[];
}

/** The claims filed in a period, newest first, each with what tells how the desk dealt with it. Nothing tells whose they are. */
export function listDeskRows({ from, to, kit, vehicle, timeZone, stakes, faults }: DeskRowsWanted): Promise<DeskRow[]> {
  const conditions = [
    Prisma.sql`c.filed_at >= ${`${from}-01`}::timestamp AT TIME ZONE ${timeZone} AND c.filed_at < ${`${monthsLater(to, 1)}-01`}::timestamp AT TIME ZONE ${timeZone}`,
    Prisma.sql`c.stage <> 'draft'`,
  ];
  if (kit !== undefined) conditions.push(Prisma.sql`k.code = ${kit}`);
  if (vehicle === "unknown") conditions.push(Prisma.sql`c.vehicle_id IS NULL`);
  else if (vehicle !== undefined) conditions.push(Prisma.sql`c.vehicle_id = ${vehicle}::uuid`);
  // From here on a return is expected to cost less than a defect that is missed.
  const breakEven = stakes.needlessReturn / (stakes.needlessReturn + stakes.missedDefect);
  return database().$queryRaw<DeskRow[]>`
    SELECT c.id, c.reference, c.stage::text, k.code AS "kit",
      (SELECT concat_ws(' ', make, model, engine) FROM vehicle WHERE id = c.vehicle_id) AS "vehicle",
      c.filed_at AS "filedAt", c.promised_at AS "promisedAt", c.first_answer_at AS "firstAnswerAt",
      (SELECT min(decided_at) FROM verdict WHERE claim_id = c.id) AS "firstDecidedAt",
      CASE WHEN c.stage IN ('cleared', 'withdrawn', 'lapsed', 'merged')
        THEN (SELECT max(at) FROM audit_entry WHERE claim_id = c.id AND action IN ('clear', 'withdraw', 'lapse', 'merge')) END AS "endedAt",
      v.primary_cause AS "cause", v.attribution::text, v.origin::text, v.remedy::text, v.way::text, v.reason, by.name AS "decidedBy",
      (SELECT result->'causes'->0->>'code' FROM ranking WHERE id = v.ranking_id) AS "leader",
      EXISTS (SELECT FROM bench_inspection AS b JOIN return AS t ON t.id = b.return_id WHERE t.claim_id = c.id) AS "isInspected",
      EXISTS (
        SELECT FROM finding AS f JOIN unnest(${faults.map(({ finding }) => finding)}::text[], ${faults.map(({ answer }) => answer)}::text[]) AS fault (code, answer) USING (code, answer)
        WHERE f.claim_id = c.id AND f.observer = 'bench' AND f.replaced_at IS NULL
      ) AS "benchShowsFault",
      EXISTS (SELECT FROM return WHERE claim_id = c.id) AS "returnAuthorised",
      EXISTS (SELECT FROM ranking WHERE claim_id = c.id AND (result->>'unitDefective')::float8 >= ${breakEven}::float8) AS "wasSuspected",
      against.primary_cause AS "firstCause", against.attribution::text AS "firstAttribution",
      o.primary_cause AS "secondCause", o.attribution::text AS "secondAttribution"
    FROM claim AS c
    LEFT JOIN kit_revision AS rev ON rev.id = c.kit_revision_id
    LEFT JOIN kit AS k ON k.id = rev.kit_id
    LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL
    LEFT JOIN person AS by ON by.id = v.decided_by_id
    LEFT JOIN second_opinion AS o ON o.claim_id = c.id
    LEFT JOIN verdict AS against ON against.id = o.verdict_id
    WHERE ${Prisma.join(conditions, " AND ")}
    ORDER BY c.filed_at DESC, c.id`;
}
