import type { Month } from "./month";

/** Shipments of one kit revision for one vehicle in one month; `vehicleId` is null where the vehicle is not known. */
export interface ShipmentCount {
  kitRevisionId: string;
  vehicleId: string | null;
  month: Month;
  shipped: number;
}

/** The same after sharing out. Add both for what claims are divided by; `sharedOut` need not be whole. */
export interface Exposure {
  kitRevisionId: string;
  vehicleId: string | null;
  month: Month;
  known: number;
  sharedOut: number;
}

/**
 * Shares shipments whose vehicle is not known out to vehicles, in proportion to the known ones of the same kit revision
 * over the whole period. Without it every rate would be too high, since a claim nearly always tells the vehicle. A
 * revision with no known vehicle at all keeps its shipments under "not known".
 *
 * @example 30 known for A, 10 for B and 20 not known: A has 30 + 15, B has 10 + 5
 */
export function shareOutUnknown(shipments: readonly ShipmentCount[]): readonly Exposure[] {
  const knownByRevision = new Map<string, Map<string, number>>();
  for (const { kitRevisionId, vehicleId, shipped } of shipments) {
    if (vehicleId === null) continue;
    const vehicles = knownByRevision.get(kitRevisionId) ?? new Map<string, number>();
    vehicles.set(vehicleId, (vehicles.get(vehicleId) ?? 0) + shipped);
    knownByRevision.set(kitRevisionId, vehicles);
  }
  return shipments.flatMap(({ kitRevisionId, vehicleId, month, shipped }): Exposure[] => {
    const vehicles = knownByRevision.get(kitRevisionId);
    if (vehicleId !== null || !vehicles) return [{ kitRevisionId, vehicleId, month, known: shipped, sharedOut: 0 }];
    const total = [...vehicles.values()].reduce((sum, known) => sum + known, 0);
    return [...vehicles].map(([id, known]) => ({ kitRevisionId, vehicleId: id, month, known: 0, sharedOut: (shipped * known) / total }));
  });
}
