import { randomUUID } from "node:crypto";
import { setTimeout as wait } from "node:timers/promises";
import { beforeEach, expect, it } from "vitest";
import { connectionPool, database } from "@/lib/data/client";
import { refreshReportCells } from "@/lib/data/report-cells";

let place: { unitId: string; shipmentId: string; vehicleId: string };

beforeEach(async () => {
  const ids = { unitId: randomUUID(), shipmentId: randomUUID(), vehicleId: randomUUID() };
  const code = ids.unitId;
  const turbo = await database().turboModel.create({ data: { code, name: "T", bearing: "journal", axialPlayMinMm: 0.03, axialPlayMaxMm: 0.09, radialPlayMaxMm: 0.4, drainBoreMm: 13 } });
  await database().vehicle.create({ data: { id: ids.vehicleId, make: "Make", model: code, engine: "2.0", fuel: "diesel", yearFrom: 2010 } });
  const kit = await database().kit.create({ data: { code, name: "Kit", revisions: { create: { revision: "A", introducedOn: new Date("2025-01-01") } } }, include: { revisions: true } });
  const order = await database().order.create({ data: { number: code, customerEmail: "a@example.com", customerName: "A", country: "DE", placedOn: new Date("2025-12-30") } });
  await database().unit.create({ data: { id: ids.unitId, serial: code, batch: "OLD", turboModelId: turbo.id } });
  await database().shipment.create({ data: { id: ids.shipmentId, orderId: order.id, kitRevisionId: kit.revisions[0]?.id ?? "", unitId: ids.unitId, shippedOn: new Date("2026-01-05") } });
  place = ids;
});

const MOVE_SHIPMENT = "UPDATE shipment SET shipped_on = '2026-03-05' WHERE id = $1";
const CHANGE_BATCH = "UPDATE unit SET batch = 'NEW' WHERE id = $1";

it.each([
  ["a shipment is moved first", MOVE_SHIPMENT, CHANGE_BATCH],
  ["its unit's batch is put right first", CHANGE_BATCH, MOVE_SHIPMENT],
])("a unit is counted once, where it is, when two change it at the same time and %s", async (_, before, after) => {
  const [one, other] = [await connectionPool().connect(), await connectionPool().connect()];
  const idFor = (sql: string) => (sql === CHANGE_BATCH ? place.unitId : place.shipmentId);
  try {
    await one.query("BEGIN");
    await one.query(before, [idFor(before)]);
    const second = other.query(after, [idFor(after)]);
    await wait(200);
    await one.query("COMMIT");
    await second;
  } finally {
    one.release();
    other.release();
  }
  await refreshReportCells();
  const { rows } = await connectionPool().query(
    "SELECT cell.batch, to_char(month, 'YYYY-MM') AS month, units FROM shipped_cell AS cell JOIN shipment AS s USING (kit_revision_id) WHERE s.id = $1 AND units <> 0",
    [place.shipmentId],
  );
  expect(rows).toEqual([{ batch: "NEW", month: "2026-03", units: 1 }]);
});
