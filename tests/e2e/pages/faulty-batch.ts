import { randomBytes, randomUUID } from "node:crypto";
import pg from "pg";
import { makeReference } from "../../../lib/domain/claims/reference";

const CONTACT = "faulty-batch@owner.example";
const CLAIMS = 8;

/** Gives the demo a batch of units whose thrust bearings fail, decided at the bench, once. The demo of the tests is too small for a fault of its own to show. */
export async function sellFaultyBatch(): Promise<void> {
  const client = new pg.Client({ connectionString: process.env.E2E_DATABASE_URL });
  await client.connect();
  try {
    const { rows: before } = await client.query("select from claim where contact_email = $1 limit 1", [CONTACT]);
    if (before.length > 0) return;
    const { rows: units } = await client.query<{ shipment: string; unit: string; revision: string; vehicle: string | null }>(
      `select s.id as shipment, u.id as unit, s.kit_revision_id as revision, s.vehicle_id as vehicle
         from shipment s join unit u on u.id = s.unit_id
        where s.shipped_on < now() - interval '3 months' and not exists (select from claim c where c.shipment_id = s.id or c.unit_id = u.id)
          and u.batch = (select batch from unit join shipment on unit.id = shipment.unit_id where shipped_on < now() - interval '3 months' group by batch order by count(*) desc, batch limit 1)
        order by u.serial limit $1`,
      [CLAIMS],
    );
    await client.query("begin");
    for (const { shipment, unit, revision, vehicle } of units) {
      const id = randomUUID();
      await client.query(
        `insert into claim (id, reference, filing_key, stage, filed_by, contact_name, contact_email, shipment_id, unit_id, kit_revision_id, vehicle_id, filed_at, promised_at, decided_at, settled_at, updated_at)
         values ($1, $2, $3, 'settled', 'customer', 'Ada Brink', $4, $5, $6, $7, $8, now() - interval '40 days', now() - interval '39 days', now() - interval '30 days', now() - interval '29 days', now())`,
        [id, makeReference(randomBytes(64)), randomUUID(), CONTACT, shipment, unit, revision, vehicle],
      );
      await client.query(
        `insert into verdict (id, claim_id, primary_cause, contributing_causes, attribution, way, basis, remedy, letter, decided_by_id)
         values ($1, $2, 'C16', '{}', 'unit', 'confirmed', 'bench', 'replacement', 'Dear Ada Brink', (select id from person order by email limit 1))`,
        [randomUUID(), id],
      );
    }
    await client.query("commit");
  } finally {
    await client.end();
  }
}
