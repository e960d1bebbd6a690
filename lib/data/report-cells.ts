import "server-only";
import type { PoolClient } from "pg";
import { FITTING_DELAY_DAYS } from "@/lib/domain/reporting/months-in-service";
import { OUTCOMES } from "@/lib/domain/reporting/outcomes";
import { LOCKS } from "./advisory-locks";
import { connectionPool } from "./client";
import { rebuildDeskLines, refreshDeskLines } from "./desk-lines";

const CLAIMS_AT_ONCE = 2_000;

/**
 * Takes over into the cells what has changed since: each changed claim is taken out of them as it was counted and put
 * back as it stands now. One at a time does it, however many processes run, so that no count is lost and none waits for
 * a person at work; the marks of a change that is not kept are never seen.
 *
 * @returns how many claims were counted anew; null where another is at it
 */
export function refreshReportCells(): Promise<number | null> {
  return inOneTransaction(async (client) => {
    const { rows } = await client.query<{ taken: boolean }>(`SELECT pg_try_advisory_xact_lock(${LOCKS.reportCells}) AS taken`);
    if (!rows[0]?.taken) return null;
    await client.query(TAKE_OVER_SHIPMENTS);
    const { rows: marks } = await client.query<{ claim_id: string }>("DELETE FROM report_mark WHERE id IN (SELECT id FROM report_mark ORDER BY id LIMIT $1) RETURNING claim_id", [CLAIMS_AT_ONCE]);
    const claimIds = [...new Set(marks.map(({ claim_id }) => claim_id))];
    if (claimIds.length === 0) return 0;
    await client.query(`WITH line AS (DELETE FROM report_claim WHERE claim_id = ANY ($1::uuid[]) RETURNING *) ${addToCells(-1)}`, [claimIds]);
    await client.query(`WITH line AS (INSERT INTO report_claim ${STANDING} AND c.id = ANY ($1::uuid[]) RETURNING *) ${addToCells(1)}`, [claimIds]);
    await refreshDeskLines(client, claimIds);
    return claimIds.length;
  });
}

/** Makes all cells anew from the claims and shipments. What changes meanwhile is taken over afterwards; reports show the old figures until it is done. */
export function rebuildReportCells(): Promise<void> {
  return inOneTransaction(async (client) => {
    await client.query(`SELECT pg_advisory_xact_lock(${LOCKS.reportCells})`);
    for (const table of ["report_mark", "report_claim", "claim_cell", "aged_cell", "cause_cell", "filed_cell", "cost_cell", "spent_cell", "aged_spent_cell", "shipped_cell"]) await client.query(`DELETE FROM ${table}`);
    // One statement sees one state: the changes that go are those that the shipments counted here have in them.
    await client.query(`
      WITH counted AS (DELETE FROM shipped_change)
      INSERT INTO shipped_cell (kit_revision_id, vehicle_id, month, batch, units)
      SELECT s.kit_revision_id, s.vehicle_id, date_trunc('month', s.shipped_on::timestamp)::date, u.batch, count(*)
      FROM shipment AS s LEFT JOIN unit AS u ON u.id = s.unit_id GROUP BY 1, 2, 3, 4`);
    await client.query(`WITH line AS (INSERT INTO report_claim ${STANDING} RETURNING *) ${addToCells(1)}`);
    await rebuildDeskLines(client, CLAIMS_AT_ONCE);
  });
}

const TAKE_OVER_SHIPMENTS = `
  WITH change AS (DELETE FROM shipped_change RETURNING kit_revision_id, vehicle_id, month, batch, units)
  INSERT INTO shipped_cell (kit_revision_id, vehicle_id, month, batch, units)
  SELECT kit_revision_id, vehicle_id, month, batch, sum(units) FROM change GROUP BY 1, 2, 3, 4 HAVING sum(units) <> 0
  ON CONFLICT (kit_revision_id, vehicle_id, month, batch) DO UPDATE SET units = shipped_cell.units + excluded.units`;

/**
 * How claims stand in the reports now. A draft is none yet and a merged one counts with the one it is merged into; the
 * customer knows the vehicle better than the order did. The weights of an undecided claim's causes are the probabilities
 * of its newest ranking, brought to a sum of 1 together with "none known": one claim is one claim, though causes may hold
 * together. A weight under one in a hundred is left out. No unit is fitted before it is shipped, whatever was typed.
 */
const STANDING = `
  (claim_id, kit_revision_id, vehicle_id, month, batch, fitter_id, filed_at, month_in_service, outcome, cause, contributing, origin, probable, costs)
  SELECT c.id, coalesce(s.kit_revision_id, c.kit_revision_id), coalesce(c.vehicle_id, s.vehicle_id),
    date_trunc('month', s.shipped_on::timestamp)::date, u.batch, c.fitter_id, c.filed_at,
    greatest(0, floor((c.filed_at::date - coalesce(CASE WHEN c.fitted_on < s.shipped_on THEN s.shipped_on ELSE c.fitted_on END, s.shipped_on + ${FITTING_DELAY_DAYS})) / (365.2425 / 12)))::int,
    CASE WHEN v.id IS NOT NULL THEN v.attribution::text WHEN c.stage IN ('cleared', 'withdrawn', 'lapsed') THEN 'ended' ELSE 'undecided' END,
    v.primary_cause, coalesce(v.contributing_causes, '{}'), v.origin,
    CASE WHEN v.id IS NULL AND c.stage NOT IN ('cleared', 'withdrawn', 'lapsed') THEN coalesce((
      SELECT jsonb_agg(jsonb_build_object('cause', code, 'attribution', attribution, 'millionths', millionths))
      FROM (
        SELECT code, attribution, round(1000000 * probability / (sum(probability) OVER () + coalesce((newest.result->>'notExplained')::float8, 0)))::int AS millionths
        FROM (SELECT result FROM ranking WHERE claim_id = c.id ORDER BY created_at DESC, id DESC LIMIT 1) AS newest
        CROSS JOIN LATERAL jsonb_to_recordset(newest.result->'causes') AS ranked (code text, attribution text, probability float8)
        WHERE probability > 0
      ) AS weighed
      WHERE millionths >= 10000
    ), '[]') ELSE '[]' END,
    coalesce((SELECT jsonb_object_agg(currency, amount) FROM (SELECT currency, sum(seller_minor) AS amount FROM settlement WHERE claim_id = c.id GROUP BY currency HAVING sum(seller_minor) <> 0) AS booked), '{}')
  FROM claim AS c
  LEFT JOIN shipment AS s ON s.id = c.shipment_id
  LEFT JOIN unit AS u ON u.id = s.unit_id
  LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL
  WHERE c.stage NOT IN ('draft', 'merged')`;

/** The causes of one `line` of `report_claim`: role, cause, attribution, origin and millionths of a claim. */
export const PARTS_OF_A_CLAIM = `
  SELECT 'primary', line.cause, line.outcome, line.origin, 1000000 WHERE line.cause IS NOT NULL
  UNION ALL SELECT 'contributing', beside, line.outcome, line.origin, 1000000 FROM unnest(line.contributing) AS beside
  UNION ALL SELECT 'probable', probable.cause, probable.attribution, NULL, probable.millionths
    FROM jsonb_to_recordset(line.probable) AS probable (cause text, attribution text, millionths int)`;

/** Adds the lines of claims to the cells, or takes them away. A claim without a known shipment stands in no cell. */
function addToCells(sign: 1 | -1): string {
  return `,
  counted AS (${addClaims("claim_cell", ["kit_revision_id", "vehicle_id", "month"], sign)}),
  aged AS (${addClaims("aged_cell", ["kit_revision_id", "vehicle_id", "month", "month_in_service"], sign)}),
  caused AS (
    INSERT INTO cause_cell (kit_revision_id, vehicle_id, month, role, cause, attribution, origin, millionths)
    SELECT kit_revision_id, vehicle_id, month, part.role::cause_role, part.cause, part.attribution, part.origin, ${sign} * sum(part.millionths)
    FROM line CROSS JOIN LATERAL (
      ${PARTS_OF_A_CLAIM}
    ) AS part (role, cause, attribution, origin, millionths)
    WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4, 5, 6, 7
    ON CONFLICT (kit_revision_id, vehicle_id, month, role, cause, attribution, origin) DO UPDATE SET millionths = cause_cell.millionths + excluded.millionths
  ),
  filed AS (
    INSERT INTO filed_cell (kit_revision_id, month, filed_month, month_in_service, claims)
    SELECT kit_revision_id, month, date_trunc('month', filed_at AT TIME ZONE 'UTC')::date, month_in_service, ${sign} * count(*)
    FROM line WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4
    ON CONFLICT (kit_revision_id, month, filed_month, month_in_service) DO UPDATE SET claims = filed_cell.claims + excluded.claims
  ),
  booked AS (
    SELECT kit_revision_id, vehicle_id, month, month_in_service, cause, outcome, origin, amount.key AS currency, ${sign} * sum(amount.value::bigint) AS amount_minor,
      ${sign} * count(*) AS claims, ${sign} * sum(amount.value::numeric * amount.value::numeric) AS squared_minor
    FROM line CROSS JOIN LATERAL jsonb_each_text(line.costs) AS amount
    WHERE month IS NOT NULL GROUP BY 1, 2, 3, 4, 5, 6, 7, 8
  ),
  spent AS (
    INSERT INTO spent_cell (kit_revision_id, vehicle_id, month, currency, amount_minor, claims, squared_minor)
    SELECT kit_revision_id, vehicle_id, month, currency, sum(amount_minor), sum(claims), sum(squared_minor) FROM booked GROUP BY 1, 2, 3, 4
    ON CONFLICT (kit_revision_id, vehicle_id, month, currency) DO UPDATE
    SET amount_minor = spent_cell.amount_minor + excluded.amount_minor, claims = spent_cell.claims + excluded.claims, squared_minor = spent_cell.squared_minor + excluded.squared_minor
  ),
  aged_spent AS (
    INSERT INTO aged_spent_cell (kit_revision_id, vehicle_id, month, month_in_service, currency, amount_minor)
    SELECT kit_revision_id, vehicle_id, month, month_in_service, currency, sum(amount_minor) FROM booked GROUP BY 1, 2, 3, 4, 5
    ON CONFLICT (kit_revision_id, vehicle_id, month, month_in_service, currency) DO UPDATE SET amount_minor = aged_spent_cell.amount_minor + excluded.amount_minor
  )
  INSERT INTO cost_cell (kit_revision_id, vehicle_id, month, cause, outcome, origin, currency, amount_minor)
  SELECT kit_revision_id, vehicle_id, month, cause, outcome, origin, currency, sum(amount_minor) FROM booked GROUP BY 1, 2, 3, 4, 5, 6, 7
  ON CONFLICT (kit_revision_id, vehicle_id, month, cause, outcome, origin, currency) DO UPDATE SET amount_minor = cost_cell.amount_minor + excluded.amount_minor`;
}

function addClaims(table: string, key: readonly string[], sign: 1 | -1): string {
  return `
    INSERT INTO ${table} (${[...key, ...OUTCOMES].join(", ")})
    SELECT ${[...key, ...OUTCOMES.map((outcome) => `${sign} * count(*) FILTER (WHERE outcome = '${outcome}')`)].join(", ")}
    FROM line WHERE month IS NOT NULL GROUP BY ${key.join(", ")}
    ON CONFLICT (${key.join(", ")}) DO UPDATE SET ${OUTCOMES.map((outcome) => `${outcome} = ${table}.${outcome} + excluded.${outcome}`).join(", ")}
  `;
}

/** On a connection of its own, since making all cells anew may take longer than a transaction of a request is given. */
async function inOneTransaction<T>(work: (client: PoolClient) => Promise<T>): Promise<T> {
  const client = await connectionPool().connect();
  try {
    await client.query("BEGIN");
    const result = await work(client);
    await client.query("COMMIT");
    return result;
  } catch (error) {
    await client.query("ROLLBACK");
    throw error;
  } finally {
    client.release();
  }
}
