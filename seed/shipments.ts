import { type Catalogue, type Kit, type KitRevision, monthsBefore, type Vehicle } from "./catalogue";
import { type Day, isoDate, isWorkingDay, monthOf, weekday, yearAndMonth } from "./calendar";
import { aCustomer, type Customer } from "./names";
import type { Random } from "./random";
import type { Tables } from "./tables";

export interface Shipment {
  id: string;
  orderNumber: string;
  customer: Customer;
  kit: Kit;
  revision: KitRevision;
  unit: { id: string; serial: string; batch: string } | null;
  /** The vehicle it was really meant for; the seller learns it for four shipments in five. */
  vehicle: Vehicle;
  vehicleKnown: boolean;
  shippedOn: Day;
}

const YEARS = 3;
/** Shipments a working day on the first and on the last day: sales double in three years. */
const A_DAY_AT_FIRST = 80;
const A_DAY_AT_LAST = 164;
const WITHOUT_UNIT = 0.11;
const VEHICLE_UNKNOWN = 0.2;

/** Workshops and tinkerers order more in spring. */
const SEASON = [0.85, 0.92, 1.15, 1.2, 1.15, 1.05, 0.98, 0.92, 1, 1, 0.95, 0.83] as const;

/** Three years of orders, units and shipments up to today. `scale` 1 gives somewhat over 80,000 units. */
export function makeShipments(random: Random, catalogue: Catalogue, today: Day, scale: number, tables: Tables): readonly Shipment[] {
  const garages = Array.from({ length: 160 }, () => aCustomer(random));
  const firstDay = monthsBefore(today, YEARS * 12);
  const shipments: Shipment[] = [];
  const unitsMade = new Map<string, number>();
  let orders = 0;

  for (let day = firstDay; day <= today; day += 1) {
    if (!isWorkingDay(day)) continue;
    const progress = (day - firstDay) / (today - firstDay);
    const season = SEASON[monthOf(day) - 1] ?? 1;
    const expected = (A_DAY_AT_FIRST + (A_DAY_AT_LAST - A_DAY_AT_FIRST) * progress) * season * scale;
    let left = Math.round(random.normal(expected, Math.sqrt(expected)));
    const onSale = catalogue.kits.filter((kit) => firstIssue(kit) <= day && (kit.retiredOn === null || day <= kit.retiredOn));
    const sales = Object.fromEntries(onSale.map((kit, index) => [String(index), kit.sales]));
    while (left > 0) {
      const fromGarage = random.chance(0.3);
      const customer = fromGarage ? random.pick(garages) : aCustomer(random);
      const placedOn = day - (weekday(day) === 1 ? random.whole(0, 3) : random.whole(0, 2));
      orders += 1;
      const orderNumber = `BT-${yearAndMonth(placedOn)}-${String(orders).padStart(6, "0")}`;
      const orderId = random.uuid();
      tables.add("order", {
        id: orderId,
        number: orderNumber,
        customer_email: customer.email,
        customer_name: customer.name,
        country: customer.country,
        placed_on: isoDate(placedOn),
      });
      const pieces = fromGarage ? random.whole(1, 3) : 1;
      for (let piece = 0; piece < pieces && left > 0; piece += 1) {
        left -= 1;
        const kit = onSale[Number(random.weighted(sales))];
        if (!kit) throw new Error("makeShipments found no kit on sale");
        const revision = revisionOn(kit, day);
        const shipment: Shipment = {
          id: random.uuid(),
          orderNumber,
          customer,
          kit,
          revision,
          unit: kit.turbo && !random.chance(WITHOUT_UNIT) ? makeUnit(random, kit.turbo.code, day, unitsMade) : null,
          vehicle: random.pick(kit.vehicles),
          vehicleKnown: !random.chance(VEHICLE_UNKNOWN),
          shippedOn: day,
        };
        shipments.push(shipment);
        if (shipment.unit && kit.turbo) tables.add("unit", { ...shipment.unit, turbo_model_id: kit.turbo.id });
        tables.add("shipment", {
          id: shipment.id,
          order_id: orderId,
          kit_revision_id: revision.id,
          unit_id: shipment.unit?.id ?? null,
          vehicle_id: shipment.vehicleKnown ? shipment.vehicle.id : null,
          shipped_on: isoDate(day),
        });
      }
    }
  }
  return shipments;
}

/** Units are shipped in the month after they were made; a batch is what was made of one model in one month. */
function makeUnit(random: Random, modelCode: string, shippedOn: Day, unitsMade: Map<string, number>) {
  const batch = batchOf(modelCode, shippedOn);
  const number = (unitsMade.get(batch) ?? 0) + 1;
  unitsMade.set(batch, number);
  return { id: random.uuid(), serial: `${batch}-${String(number).padStart(4, "0")}`, batch };
}

export function batchOf(modelCode: string, shippedOn: Day): string {
  return `${modelCode}-${yearAndMonth(shippedOn - 30)}`;
}

function firstIssue(kit: Kit): Day {
  return Math.min(...kit.revisions.map((revision) => revision.introducedOn));
}

function revisionOn(kit: Kit, day: Day): KitRevision {
  const current = kit.revisions.filter((revision) => revision.introducedOn <= day).at(-1);
  if (!current) throw new Error(`${kit.code} was not on sale on ${isoDate(day)}`);
  return current;
}
