import "server-only";
import type { PoolClient } from "pg";
import type { Remedy } from "@/lib/domain/claims/remedies";
import type { VerdictWay } from "@/lib/domain/claims/verdict";
import { workingClock } from "@/lib/domain/claims/working-hours";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { BENCH_FAULTS, type DeskFacts } from "@/lib/domain/reporting/desk-quality";
import { keptMinutes } from "@/lib/domain/reporting/desk-waits";

/** What is kept of a claim's facts: what neither the time of the look nor a stake moves, the scoring's word by its cause. */
export type KeptFacts = Omit<DeskFacts, "scored" | "wasSuspected"> & { origin: Origin | null; leader: CauseCode | null };

interface ClaimRow {
  id: string;
  stage: string;
  kitRevisionId: string | null;
  vehicleId: string | null;
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
  leader: CauseCode | null;
  isInspected: boolean;
  showsFault: boolean;
  returnAuthorised: boolean;
  unitDefective: number | null;
  firstCause: CauseCode | null;
  firstAttribution: Attribution | null;
  secondCause: CauseCode | null;
  secondAttribution: Attribution | null;
}

/** Everything the quality of the desk knows of these claims. */
const CLAIMS = `
  SELECT c.id, c.stage::text, c.kit_revision_id AS "kitRevisionId", c.vehicle_id AS "vehicleId",
    c.filed_at AS "filedAt", c.promised_at AS "promisedAt", c.first_answer_at AS "firstAnswerAt",
    (SELECT min(decided_at) FROM verdict WHERE claim_id = c.id) AS "firstDecidedAt",
    CASE WHEN c.stage IN ('cleared', 'withdrawn', 'lapsed', 'merged')
      THEN (SELECT max(at) FROM audit_entry WHERE claim_id = c.id AND action IN ('clear', 'withdraw', 'lapse', 'merge')) END AS "endedAt",
    v.primary_cause AS "cause", v.attribution::text, v.origin::text, v.remedy::text, v.way::text,
    (SELECT result->'causes'->0->>'code' FROM ranking WHERE id = v.ranking_id) AS "leader",
    EXISTS (SELECT FROM bench_inspection AS b JOIN return AS t ON t.id = b.return_id WHERE t.claim_id = c.id AND b.inspected_at IS NOT NULL) AS "isInspected",
    EXISTS (
      SELECT FROM finding AS f JOIN unnest($2::text[], $3::text[]) AS fault (code, answer) USING (code, answer)
      WHERE f.claim_id = c.id AND f.observer = 'bench' AND f.replaced_at IS NULL
    ) AS "showsFault",
    EXISTS (SELECT FROM return WHERE claim_id = c.id) AS "returnAuthorised",
    (SELECT max((result->>'unitDefective')::float8) FROM ranking WHERE claim_id = c.id) AS "unitDefective",
    against.primary_cause AS "firstCause", against.attribution::text AS "firstAttribution",
    o.primary_cause AS "secondCause", o.attribution::text AS "secondAttribution"
  FROM claim AS c
  LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL
  LEFT JOIN second_opinion AS o ON o.claim_id = c.id
  LEFT JOIN verdict AS against ON against.id = o.verdict_id
  WHERE c.id = ANY ($1::uuid[]) AND c.stage <> 'draft'`;

/** Brings the lines of these claims up to date, in the transaction that is open on the connection. */
export async function refreshDeskLines(client: PoolClient, claimIds: readonly string[]): Promise<void> {
  await client.query("DELETE FROM desk_claim WHERE claim_id = ANY ($1::uuid[])", [claimIds]);
  const { rows } = await client.query<ClaimRow>(CLAIMS, [claimIds, BENCH_FAULTS.map(({ finding }) => finding), BENCH_FAULTS.map(({ answer }) => answer)]);
  if (rows.length === 0) return;
  const { rows: [opening] } = await client.query<{ timeZone: string; workingDays: number[]; opensAt: string; closesAt: string }>(
    `SELECT time_zone AS "timeZone", working_days AS "workingDays", opens_at AS "opensAt", closes_at AS "closesAt" FROM seller_settings`,
  );
  if (!opening) throw new Error("refreshDeskLines needs the settings of the seller");
  const instants = rows.flatMap(({ filedAt, firstAnswerAt, firstDecidedAt, endedAt }) => [filedAt, firstAnswerAt, firstDecidedAt, endedAt].flatMap((at) => at?.getTime() ?? []));
  const workingHours = workingClock(opening, new Date(least(instants)), new Date(most(instants)));
  const lines = rows.map((row) => {
    // A claim that ended without it was watched until then; an open one waits still, so its wait is not kept.
    const wait = (until: Date | null) => ({
      working: until && keptMinutes(workingHours(row.filedAt, until)),
      calendar: until && keptMinutes((until.getTime() - row.filedAt.getTime()) / 3_600_000),
    });
    return { ...row, facts: JSON.stringify(factsOf(row)), answer: wait(row.firstAnswerAt ?? row.endedAt), verdict: wait(row.firstDecidedAt ?? row.endedAt) };
  });
  await client.query("INSERT INTO desk_facts (facts) SELECT DISTINCT unnest($1::text[]) ON CONFLICT (facts) DO NOTHING", [lines.map(({ facts }) => facts)]);
  await client.query(
    `INSERT INTO desk_claim (claim_id, filed_at, promised_at, kit_revision_id, vehicle_id, facts_id, unit_defective, is_answered, is_decided, answer_working, answer_calendar, verdict_working, verdict_calendar)
     SELECT line.claim_id, filed_at, promised_at, kit_revision_id, vehicle_id, kept.id, unit_defective, is_answered, is_decided, answer_working, answer_calendar, verdict_working, verdict_calendar
     FROM unnest($1::uuid[], $2::timestamptz[], $3::timestamptz[], $4::uuid[], $5::uuid[], $6::text[], $7::float8[], $8::boolean[], $9::boolean[], $10::int[], $11::int[], $12::int[], $13::int[])
       AS line (claim_id, filed_at, promised_at, kit_revision_id, vehicle_id, facts, unit_defective, is_answered, is_decided, answer_working, answer_calendar, verdict_working, verdict_calendar)
     JOIN desk_facts AS kept USING (facts)`,
    [
      lines.map(({ id }) => id),
      lines.map(({ filedAt }) => filedAt),
      lines.map(({ promisedAt }) => promisedAt),
      lines.map(({ kitRevisionId }) => kitRevisionId),
      lines.map(({ vehicleId }) => vehicleId),
      lines.map(({ facts }) => facts),
      lines.map(({ unitDefective }) => unitDefective),
      lines.map(({ firstAnswerAt }) => firstAnswerAt !== null),
      lines.map(({ firstDecidedAt }) => firstDecidedAt !== null),
      lines.map(({ answer }) => answer.working),
      lines.map(({ answer }) => answer.calendar),
      lines.map(({ verdict }) => verdict.working),
      lines.map(({ verdict }) => verdict.calendar),
    ],
  );
}

/** Makes all lines anew, so many claims at a time. */
export async function rebuildDeskLines(client: PoolClient, claimsAtOnce: number): Promise<void> {
  await client.query("DELETE FROM desk_claim");
  await client.query("DELETE FROM desk_facts");
  for (let after = "00000000-0000-0000-0000-000000000000"; ; ) {
    const { rows } = await client.query<{ id: string }>("SELECT id FROM claim WHERE id > $1 ORDER BY id LIMIT $2", [after, claimsAtOnce]);
    const last = rows.at(-1);
    if (!last) return;
    await refreshDeskLines(client, rows.map(({ id }) => id));
    after = last.id;
  }
}

function factsOf(row: ClaimRow): KeptFacts {
  const { cause, attribution, remedy, way, firstCause, firstAttribution, secondCause, secondAttribution } = row;
  return {
    answer: row.firstAnswerAt === null ? null : row.firstAnswerAt <= row.promisedAt ? "in-time" : "late",
    isOverdue: row.firstAnswerAt === null && row.endedAt !== null && row.endedAt > row.promisedAt,
    isDecided: row.firstDecidedAt !== null,
    hasEnded: row.endedAt !== null,
    wasCleared: row.stage === "cleared",
    verdict: cause && attribution && remedy && way ? { cause, attribution, remedy, way } : null,
    origin: row.origin,
    leader: row.leader,
    inspection: row.isInspected ? { showsFault: row.showsFault } : null,
    returnAuthorised: row.returnAuthorised,
    opinions: firstCause && firstAttribution && secondCause && secondAttribution ? { first: { cause: firstCause, attribution: firstAttribution }, second: { cause: secondCause, attribution: secondAttribution } } : null,
  };
}

const least = (numbers: readonly number[]) => numbers.reduce((first, number) => Math.min(first, number), Number.POSITIVE_INFINITY);
const most = (numbers: readonly number[]) => numbers.reduce((last, number) => Math.max(last, number), 0);
