import "server-only";
import type { Staging } from "@/lib/domain/catalogue/entries";
import { modelName } from "@/lib/domain/reporting/catalogue";
import { database } from "./client";

const SHIPMENT = {
  id: true,
  unitId: true,
  kitRevisionId: true,
  vehicleId: true,
  shippedOn: true,
  kitRevision: { select: { revision: true, kit: { select: { id: true, code: true, name: true } } } },
  unit: { select: { serial: true } },
} as const;

/** What was sent on the order of this number, if it was placed with this e-mail address. */
export function findShipmentsOfOrder(number: string, email: string) {
  return database().shipment.findMany({
    where: { order: { number: { equals: number, mode: "insensitive" }, customerEmail: { equals: email, mode: "insensitive" } } },
    orderBy: [{ shippedOn: "desc" }, { id: "asc" }],
    take: 20,
    select: SHIPMENT,
  });
}

/**
 * The shipment of the unit with this serial, or null when no such unit was sent. A space typed for a hyphen, or neither,
 * finds it too; where two serials are alike but for their signs, only the exact spelling does.
 */
export async function findShipmentOfUnit(serial: string) {
  const alike = await database().$queryRaw<{ id: string; isExact: boolean }[]>`
    SELECT "id", upper("serial") = upper(${serial}) AS "isExact" FROM "unit"
    WHERE regexp_replace(upper("serial"), '[^[:alnum:]]', '', 'g') = regexp_replace(upper(${serial}), '[^[:alnum:]]', '', 'g')
    LIMIT 20`;
  const unit = alike.find(({ isExact }) => isExact) ?? (alike.length === 1 ? alike[0] : undefined);
  return unit ? database().shipment.findFirst({ where: { unitId: unit.id }, select: SHIPMENT }) : null;
}

/** Every kit by its number, for picking. */
export async function listKits(): Promise<{ id: string; code: string; name: string }[]> {
  const kits = await database().kit.findMany({ orderBy: { code: "asc" }, select: { id: true, code: true, name: true } });
  return kits.map(({ id, code, name }) => ({ id, code, name: `${code} ${name}` }));
}

/** What each kit says about pairs: how its unit works, null where it holds none; and the vehicles that kits of pairs are sold for. */
export async function listPairs(): Promise<{ kits: readonly { id: string; staging: Staging | null }[]; vehicles: readonly string[] }> {
  const kits = await database().kit.findMany({ orderBy: { code: "asc" }, select: { id: true, turboModel: { select: { staging: true } }, fitments: { select: { vehicleId: true } } } });
  const told = kits.map(({ id, turboModel, fitments }) => ({ id, staging: turboModel?.staging ?? null, fitments }));
  return { kits: told, vehicles: told.flatMap(({ staging, fitments }) => (staging === null || staging === "single" ? [] : fitments.map(({ vehicleId }) => vehicleId))) };
}

/** The vehicles a kit is sold for; every vehicle when the kit is not known. */
export async function listVehicles(kitId: string | null): Promise<{ id: string; name: string }[]> {
  const vehicles = await database().vehicle.findMany({
    ...(kitId ? { where: { fitments: { some: { kitId } } } } : {}),
    orderBy: [{ make: "asc" }, { model: "asc" }, { yearFrom: "asc" }],
  });
  return vehicles.map((vehicle) => ({ id: vehicle.id, name: vehicleName(vehicle) }));
}

/** The revision of a kit that was sold on a day: the newest introduced by then, else the first. */
export async function findRevisionSoldOn(kitId: string, day: Date): Promise<{ id: string } | null> {
  const revisions = await database().kitRevision.findMany({ where: { kitId }, orderBy: { introducedOn: "desc" }, select: { id: true, introducedOn: true } });
  return revisions.find(({ introducedOn }) => introducedOn <= day) ?? revisions.at(-1) ?? null;
}

/** A vehicle as people say it in any language: make, model, engine, years, the last one open while it is still made. */
export function vehicleName(vehicle: { make: string; model: string; engine: string; yearFrom: number; yearTo: number | null }): string {
  const years = vehicle.yearTo === null ? `${vehicle.yearFrom}\u2013` : `${vehicle.yearFrom}\u2013${vehicle.yearTo}`;
  return `${modelName(vehicle)}, ${years}`;
}

/** Who placed the order of this number, for staff who take a call; null when there is none. */
export function findOrder(number: string): Promise<{ number: string; customerEmail: string; customerName: string } | null> {
  return database().order.findFirst({ where: { number: { equals: number, mode: "insensitive" } }, select: { number: true, customerEmail: true, customerName: true } });
}
