import "server-only";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { SameUnitClaim, UnitShipment } from "@/lib/domain/claims/same-unit";
import { type Db, database } from "./client";
import { Prisma } from "./generated/client";

const bare = (serial: Prisma.Sql) => Prisma.sql`regexp_replace(upper(${serial}), '[^[:alnum:]]', '', 'g')`;

/** The serials that a claim `c` with its unit `u` names, by letters and digits alone; the signs of none are no serial. */
const SERIALS = Prisma.sql`array_remove(ARRAY[${bare(Prisma.sql`u.serial`)}, ${bare(Prisma.sql`c.serial`)}, ${bare(Prisma.sql`c.other_serial`)}], '')`;

/** The claims that name one of the serials of `mine`. */
const SAME = Prisma.sql`SELECT c.id FROM claim AS c WHERE ${bare(Prisma.sql`c.serial`)} = ANY(mine.serials)
  UNION SELECT c.id FROM claim AS c WHERE ${bare(Prisma.sql`c.other_serial`)} = ANY(mine.serials)
  UNION SELECT c.id FROM claim AS c JOIN unit AS u ON u.id = c.unit_id WHERE ${bare(Prisma.sql`u.serial`)} = ANY(mine.serials)`;

interface UnitRow {
  claims: readonly SameUnitClaim[];
  shipment: UnitShipment | null;
}

/**
 * Where else the unit of a claim is known: other filed claims that name its serial or its pair's other one, newest
 * first, by letters and digits alone; and to whom the unit was sent.
 */
export async function findSameUnit(claimId: string, db: Db = database()): Promise<UnitRow> {
  const claims = await db.$queryRaw<(Omit<SameUnitClaim, "stage"> & { stage: ClaimStage })[]>`
    WITH mine AS (
      SELECT c.id, lower(c.contact_email) AS email, ${SERIALS} AS serials FROM claim AS c LEFT JOIN unit AS u ON u.id = c.unit_id WHERE c.id = ${claimId}::uuid
    )
    SELECT c.id, c.reference, c.stage::text AS stage, c.filed_at AS "filedAt", lower(c.contact_email) = mine.email AS "isSameCustomer",
      EXISTS (SELECT FROM verdict AS v WHERE v.claim_id = c.id AND v.superseded_at IS NULL AND v.remedy IN ('replacement', 'refund')) AS "isReplaced"
    FROM mine, LATERAL (${SAME}) AS same JOIN claim AS c ON c.id = same.id
    WHERE c.stage <> 'draft' AND c.id <> mine.id
    ORDER BY c.filed_at DESC, c.id LIMIT 20`;
  const [shipment] = await db.$queryRaw<UnitShipment[]>`
    SELECT s.shipped_on AS "shippedOn", lower(o.customer_email) = lower(c.contact_email) AS "isToThisCustomer"
    FROM claim AS c JOIN shipment AS s ON s.unit_id = c.unit_id JOIN "order" AS o ON o.id = s.order_id
    WHERE c.id = ${claimId}::uuid`;
  return { claims, shipment: shipment ?? null };
}

/** The references of the other claims that name the same serial as each of these, newest first; merged and withdrawn ones are left out. */
export async function listSameSerial(claimIds: readonly string[]): Promise<Map<string, readonly string[]>> {
  const rows = await database().$queryRaw<{ id: string; references: string[] }[]>`
    WITH mine AS (SELECT c.id, ${SERIALS} AS serials FROM claim AS c LEFT JOIN unit AS u ON u.id = c.unit_id WHERE c.id = ANY(${[...claimIds]}::uuid[]))
    SELECT mine.id, array_agg(c.reference ORDER BY c.filed_at DESC, c.id) AS "references"
    FROM mine, LATERAL (${SAME}) AS same JOIN claim AS c ON c.id = same.id
    WHERE c.id <> mine.id AND c.stage NOT IN ('draft', 'merged', 'withdrawn') GROUP BY mine.id`;
  return new Map(rows.map(({ id, references }) => [id, references]));
}
