import "server-only";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import { database } from "./client";

/** Another claim of the same customer, and by what it is theirs. */
export interface EarlierClaim {
  id: string;
  reference: string;
  stage: ClaimStage;
  filedAt: Date | null;
  kit: string | null;
  cause: string | null;
  isDecided: boolean;
  sameEmail: boolean;
  samePhone: boolean;
  sameOrder: boolean;
}

const MOST = 20;

/**
 * Other claims of the same e-mail address, telephone or order, newest first. A telephone is compared by its figures
 * alone, from six on.
 */
export function listClaimsOfCustomer(claimId: string): Promise<EarlierClaim[]> {
  return database().$queryRaw<EarlierClaim[]>`
    WITH mine AS (
      SELECT id, lower(contact_email) AS email, upper(order_number) AS order_number, regexp_replace(contact_phone, '[^0-9]', '', 'g') AS phone
      FROM claim WHERE id = ${claimId}::uuid
    ), theirs AS (
      SELECT c.id FROM claim AS c, mine WHERE lower(c.contact_email) = mine.email
      UNION SELECT c.id FROM claim AS c, mine WHERE upper(c.order_number) = mine.order_number
      UNION SELECT c.id FROM claim AS c, mine WHERE regexp_replace(c.contact_phone, '[^0-9]', '', 'g') = mine.phone AND length(mine.phone) >= 6
    )
    SELECT c.id, c.reference, c.stage::text AS stage, c.filed_at AS "filedAt",
      (SELECT k.name FROM kit_revision AS r JOIN kit AS k ON k.id = r.kit_id WHERE r.id = c.kit_revision_id) AS kit,
      coalesce(v.primary_cause, c.leader_cause) AS cause, v.id IS NOT NULL AS "isDecided",
      lower(c.contact_email) = mine.email AS "sameEmail",
      coalesce(regexp_replace(c.contact_phone, '[^0-9]', '', 'g') = mine.phone, false) AS "samePhone",
      coalesce(upper(c.order_number) = mine.order_number, false) AS "sameOrder"
    FROM theirs JOIN claim AS c ON c.id = theirs.id LEFT JOIN verdict AS v ON v.claim_id = c.id AND v.superseded_at IS NULL, mine
    WHERE c.stage <> 'draft' AND c.id <> mine.id
    ORDER BY c.filed_at DESC, c.id LIMIT ${MOST}`;
}

export interface OrderOfCustomer {
  number: string;
  placedOn: Date;
  /** "KH-210 Drover kit, rev C", and the serial of a unit. */
  sent: readonly { kit: string; serial: string | null; shippedOn: Date }[];
}

/** The orders placed with the e-mail address of a claim, or named in it, newest first. */
export async function listOrdersOfCustomer(claimId: string): Promise<OrderOfCustomer[]> {
  const rows = await database().$queryRaw<(Omit<OrderOfCustomer, "sent"> & { kit: string; serial: string | null; shippedOn: Date })[]>`
    SELECT o.number, o.placed_on AS "placedOn", concat(k.code, ' ', k.name, ', rev ', r.revision) AS kit, u.serial, s.shipped_on AS "shippedOn"
    FROM "order" AS o JOIN shipment AS s ON s.order_id = o.id
      JOIN kit_revision AS r ON r.id = s.kit_revision_id JOIN kit AS k ON k.id = r.kit_id LEFT JOIN unit AS u ON u.id = s.unit_id
    WHERE o.id IN (
      SELECT o.id FROM "order" AS o, claim AS c WHERE c.id = ${claimId}::uuid AND lower(o.customer_email) = lower(c.contact_email)
      UNION SELECT s.order_id FROM claim AS c JOIN shipment AS s ON s.id = c.shipment_id WHERE c.id = ${claimId}::uuid
    )
    ORDER BY o.placed_on DESC, o.number, s.shipped_on LIMIT 40`;
  const orders = new Map<string, { number: string; placedOn: Date; sent: { kit: string; serial: string | null; shippedOn: Date }[] }>();
  for (const { number, placedOn, kit, serial, shippedOn } of rows) {
    const order = orders.get(number) ?? { number, placedOn, sent: [] };
    order.sent.push({ kit, serial, shippedOn });
    orders.set(number, order);
  }
  return [...orders.values()];
}
