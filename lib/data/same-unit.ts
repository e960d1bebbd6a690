import "server-only";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { SameUnitClaim, UnitShipment } from "@/lib/domain/claims/same-unit";
import { type Db, database } from "./client";
import { Prisma } from "./generated/client";

const bare = (serial: Prisma.Sql) => Prisma.sql`regexp_replace(upper(${serial}), '[^[:alnum:]]', '', 'g')`;

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
      SELECT c.id, lower(c.contact_email) AS email,
        array_remove(ARRAY[${bare(Prisma.sql`coalesce(u.serial, c.serial)`)}, ${bare(Prisma.sql`c.other_serial`)}], '') AS serials
      FROM claim AS c LEFT JOIN unit AS u ON u.id = c.unit_id WHERE c.id = ${claimId}::uuid
    ), same AS (
      SELECT c.id FROM claim AS c, mine WHERE ${bare(Prisma.sql`c.serial`)} = ANY(mine.serials)
      UNION SELECT c.id FROM claim AS c, mine WHERE ${bare(Prisma.sql`c.other_serial`)} = ANY(mine.serials)
      UNION SELECT c.id FROM claim AS c JOIN unit AS u ON u.id = c.unit_id, mine WHERE ${bare(Prisma.sql`u.serial`)} = ANY(mine.serials)
    )
    SELECT c.id, c.reference, c.stage::text AS stage, c.filed_at AS "filedAt", lower(c.contact_email) = mine.email AS "isSameCustomer",
      EXISTS (SELECT FROM verdict AS v WHERE v.claim_id = c.id AND v.superseded_at IS NULL AND v.remedy IN ('replacement', 'refund')) AS "isReplaced"
    FROM same JOIN claim AS c ON c.id = same.id, mine
    WHERE c.stage <> 'draft' AND c.id <> mine.id
    ORDER BY c.filed_at DESC, c.id LIMIT 20`;
  const [shipment] = await db.$queryRaw<UnitShipment[]>`
    SELECT s.shipped_on AS "shippedOn", lower(o.customer_email) = lower(c.contact_email) AS "isToThisCustomer"
    FROM claim AS c JOIN shipment AS s ON s.unit_id = c.unit_id JOIN "order" AS o ON o.id = s.order_id
    WHERE c.id = ${claimId}::uuid`;
  return { claims, shipment: shipment ?? null };
}
