import "server-only";
import type { Db } from "./client";
import { CHANGED, type KindOfImport, NAMED_VEHICLE, NAMED_VEHICLE_COLUMNS, tellVehicles } from "./imports-catalogue";
import { noteDifference, resolveRows, run, tell, tellDisagreement, tellTwice } from "./imports-staging";

/** Each revision of a kit with the days on which it was the one sold: the first also before it was introduced. */
const REVISION_SOLD = `
  SELECT id, kit_id, CASE WHEN lag(id) OVER w IS NULL THEN '-infinity' ELSE introduced_on END AS sold_from, coalesce(lead(introduced_on) OVER w, 'infinity') AS sold_before
  FROM kit_revision WINDOW w AS (PARTITION BY kit_id ORDER BY introduced_on, id)`;

/**
 * A shipment with a unit is known by the unit's serial. A kit alone is known by its order, kit and day: as many rows of a
 * file as there are such shipments are there already, the rest is new. Rows that agree in revision and vehicle are paired
 * first.
 */
export const shipmentsImport: KindOfImport = {
  async check(db) {
    await resolveRows(
      db,
      `SELECT s.*, k.id AS kit_id, k.turbo_model_id AS kit_model_id, m.id AS named_model_id, o.id AS order_id, u.id AS unit_id, h.id AS kept_id,
         CASE WHEN s.revision IS NOT NULL THEN named.id WHEN kept_revision.kit_id = k.id THEN kept_revision.id ELSE sold.id END AS kit_revision_id, ${NAMED_VEHICLE_COLUMNS}
       FROM staged AS s
       LEFT JOIN kit AS k ON k.code = s.kit
       LEFT JOIN kit_revision AS named ON named.kit_id = k.id AND named.revision = s.revision
       LEFT JOIN (${REVISION_SOLD}) AS sold ON sold.kit_id = k.id AND s.shipped_on >= sold.sold_from AND s.shipped_on < sold.sold_before
       LEFT JOIN turbo_model AS m ON m.code = s.turbo_model
       LEFT JOIN "order" AS o ON o.number = s.order_number
       LEFT JOIN unit AS u ON u.serial = s.serial
       LEFT JOIN shipment AS h ON h.unit_id = u.id
       LEFT JOIN kit_revision AS kept_revision ON kept_revision.id = h.kit_revision_id
       ${NAMED_VEHICLE}`,
    );
    await pairKitsAlone(db, ["kit_revision_id", "vehicle_id"]);
    await pairKitsAlone(db, []);

    await tell(db, "kit", "unknown-kit", "kit_id IS NULL");
    await tell(db, "revision", "unknown-revision", "kit_id IS NOT NULL AND kit_revision_id IS NULL");
    await tell(db, "turbo_model", "unknown-turbo-model", "turbo_model IS NOT NULL AND named_model_id IS NULL");
    await tell(db, "turbo_model", "no-turbo-model", "serial IS NOT NULL AND unit_id IS NULL AND turbo_model IS NULL AND kit_id IS NOT NULL AND kit_model_id IS NULL");
    await tellVehicles(db);
    await tellTwice(db, "serial", ["serial"]);
    await tellDisagreement(db, "order_number", ["customer_email", "customer_name", "country", "placed_on"]);

    const order = 'JOIN "order" AS o ON o.id = r.order_id';
    await noteDifference(db, "customer_email", "lower(o.customer_email)", order);
    for (const field of ["customer_name", "country", "placed_on"]) await noteDifference(db, field, `o.${field}`, order);
    const unit = "JOIN unit AS u ON u.id = r.unit_id JOIN turbo_model AS m ON m.id = u.turbo_model_id";
    await noteDifference(db, "batch", "u.batch", unit);
    await noteDifference(db, "turbo_model", "m.code", unit);
    const shipment = `JOIN shipment AS h ON h.id = r.kept_id JOIN "order" AS o ON o.id = h.order_id JOIN kit_revision AS v ON v.id = h.kit_revision_id JOIN kit AS k ON k.id = v.kit_id`;
    await noteDifference(db, "order_number", "o.number", shipment);
    await noteDifference(db, "kit", "k.code", shipment);
    await noteDifference(db, "revision", "v.revision", shipment, "r.kit = k.code AND r.revision <> v.revision");
    await noteDifference(db, "shipped_on", "h.shipped_on", shipment);
    await noteDifference(db, "model", "concat_ws(' ', y.make, y.model, y.engine, y.year_from)", `${shipment} LEFT JOIN vehicle AS y ON y.id = h.vehicle_id`, "r.vehicle_id IS DISTINCT FROM h.vehicle_id AND r.vehicle_id IS NOT NULL");
    await run(
      db,
      `INSERT INTO staged_problem SELECT d.line, d.field, d.value, 'has-claim', d.other FROM staged_difference AS d JOIN resolved AS r ON r.line = d.line
       WHERE d.field IN ('order_number', 'kit', 'revision', 'turbo_model') AND EXISTS (SELECT FROM claim AS c WHERE c.shipment_id = r.kept_id)`,
    );
  },

  async write(db) {
    await run(
      db,
      `INSERT INTO "order" (id, number, customer_email, customer_name, country, placed_on)
       SELECT gen_random_uuid(), order_number, min(customer_email), min(customer_name), min(country), coalesce(min(placed_on), min(shipped_on)) FROM resolved WHERE order_id IS NULL GROUP BY order_number`,
    );
    await run(
      db,
      `INSERT INTO unit (id, serial, batch, turbo_model_id)
       SELECT gen_random_uuid(), serial, coalesce(batch, ''), coalesce(named_model_id, kit_model_id) FROM resolved WHERE serial IS NOT NULL AND unit_id IS NULL`,
    );
    await run(
      db,
      `INSERT INTO shipment (id, order_id, kit_revision_id, unit_id, vehicle_id, shipped_on)
       SELECT gen_random_uuid(), o.id, r.kit_revision_id, u.id, r.vehicle_id, r.shipped_on
       FROM resolved AS r JOIN "order" AS o ON o.number = r.order_number LEFT JOIN unit AS u ON u.serial = r.serial WHERE r.kept_id IS NULL`,
    );
    await run(
      db,
      `UPDATE "order" AS o SET customer_email = r.customer_email, customer_name = r.customer_name, country = r.country, placed_on = coalesce(r.placed_on, o.placed_on)
       FROM (SELECT order_id, min(customer_email) AS customer_email, min(customer_name) AS customer_name, min(country) AS country, min(placed_on) AS placed_on
             FROM resolved WHERE order_id IN (SELECT order_id FROM resolved WHERE ${CHANGED}) GROUP BY order_id) AS r
       WHERE r.order_id = o.id`,
    );
    await run(
      db,
      `UPDATE unit AS u SET batch = coalesce(r.batch, u.batch), turbo_model_id = coalesce(r.named_model_id, u.turbo_model_id) FROM resolved AS r WHERE r.unit_id = u.id AND r.${CHANGED}`,
    );
    await run(
      db,
      `UPDATE shipment AS h SET order_id = o.id, kit_revision_id = r.kit_revision_id, vehicle_id = coalesce(r.vehicle_id, h.vehicle_id), shipped_on = r.shipped_on
       FROM resolved AS r JOIN "order" AS o ON o.number = r.order_number WHERE r.kept_id = h.id AND r.${CHANGED}`,
    );
  },
};

/** Pairs rows about a kit alone with shipments of its order, kit and day that agree in these columns too, one with one. */
async function pairKitsAlone(db: Db, also: readonly string[]): Promise<void> {
  const alike = also.map((column) => `AND mine.${column} IS NOT DISTINCT FROM theirs.${column}`).join(" ");
  const nth = (order: string) => `row_number() OVER (PARTITION BY ${["order_id", "kit_id", "shipped_on", ...also].join(", ")} ORDER BY ${order}) AS nth`;
  await run(
    db,
    `UPDATE resolved AS r SET kept_id = theirs.id, kit_revision_id = CASE WHEN r.revision IS NULL THEN theirs.kit_revision_id ELSE r.kit_revision_id END
     FROM (SELECT line, order_id, kit_id, kit_revision_id, shipped_on, vehicle_id, ${nth("line")} FROM resolved WHERE serial IS NULL AND order_id IS NOT NULL AND kept_id IS NULL) AS mine
     JOIN (SELECT h.*, ${nth("id")} FROM (
             SELECT h.id, h.order_id, v.kit_id, h.kit_revision_id, h.shipped_on, h.vehicle_id FROM shipment AS h JOIN kit_revision AS v ON v.id = h.kit_revision_id
             WHERE h.unit_id IS NULL AND h.order_id IN (SELECT order_id FROM resolved WHERE serial IS NULL) AND NOT EXISTS (SELECT FROM resolved AS paired WHERE paired.kept_id = h.id)) AS h) AS theirs
       ON mine.order_id = theirs.order_id AND mine.kit_id = theirs.kit_id AND mine.shipped_on = theirs.shipped_on AND mine.nth = theirs.nth ${alike}
     WHERE r.line = mine.line`,
  );
}
