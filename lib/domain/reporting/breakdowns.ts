import type { Interval } from "../statistics/poisson-interval";
import type { ReportCatalogue } from "./catalogue";
import { type Selection, selectorOf } from "./causes-of-a-selection";
import type { Cohort } from "./cohorts";
import { perThousand } from "./figures";
import type { Month } from "./month";
import { monthsInService, type ServiceClock } from "./months-in-service";
import { partsByVehicle, shareOutUnknown } from "./share-out";

/** Units shipped of one batch; null where kits went out without a unit. */
export interface ShippedOfBatch {
  kitRevisionId: string;
  vehicleId: string | null;
  batch: string | null;
  units: number;
}

export interface BatchLine {
  batch: string | null;
  shipped: number;
  claims: number;
  /** Claims per 1,000 shipped; null where nothing was shipped. */
  rate: Interval | null;
}

interface Place {
  catalogue: ReportCatalogue;
  /** Of the kits selected, for all vehicles. */
  cohorts: readonly Cohort[];
  selection: Selection;
}

/**
 * Claims and shipments by batch of the units, in the order of the batches' names. Units of unknown vehicles are shared
 * out as those of the whole revision are: a batch knows no vehicle of its own.
 */
export function linesByBatch({ catalogue, cohorts, selection }: Place, shipped: readonly ShippedOfBatch[], claims: readonly { batch: string | null; claims: number }[]): readonly BatchLine[] {
  const isSelected = selectorOf(catalogue, selection);
  const parts = partsByVehicle(cohorts);
  const units = new Map<string | null, number>();
  for (const { batch, ...of } of shipped) {
    const ofRevision = of.vehicleId === null ? parts.get(of.kitRevisionId) : undefined;
    const to = ofRevision ? [...ofRevision].map(([vehicleId, part]) => ({ vehicleId, part })) : [{ vehicleId: of.vehicleId, part: 1 }];
    for (const { vehicleId, part } of to) if (isSelected({ ...of, vehicleId })) units.set(batch, (units.get(batch) ?? 0) + of.units * part);
  }
  const claimsOf = new Map(claims.map((count) => [count.batch, count.claims]));
  return [...new Set([...units.keys(), ...claimsOf.keys()])]
    .sort((a, b) => Number(a === null) - Number(b === null) || (a ?? "").localeCompare(b ?? ""))
    .map((batch) => ({ batch, shipped: units.get(batch) ?? 0, claims: claimsOf.get(batch) ?? 0, rate: perThousand(claimsOf.get(batch) ?? 0, units.get(batch) ?? 0) }));
}

export interface AgeLine {
  /** 0 is the first month in service. */
  monthInService: number;
  claims: number;
  /** Unit-months that the shipped units have spent in that month of their service, estimated. */
  unitMonths: number;
  /** Claims per 1,000 unit-months; null where no unit is so old. */
  rate: Interval | null;
}

/** Claims by month in service, against the units that have reached it: when in a unit's life the claims come. */
export function linesByAge({ catalogue, cohorts, selection }: Place, claims: readonly { monthInService: number; claims: number }[], { today }: ServiceClock): readonly AgeLine[] {
  const units = new Map<Month, number>();
  for (const { months } of shareOutUnknown(cohorts, selectorOf(catalogue, selection)))
    for (const { month, known, sharedOut } of months) units.set(month, (units.get(month) ?? 0) + known + sharedOut);
  const claimsOf = new Map(claims.map((count) => [count.monthInService, count.claims]));
  const oldest = Math.max(-1, ...claimsOf.keys());
  return Array.from({ length: oldest + 1 }, (_, monthInService) => {
    const window = { first: monthInService, before: monthInService + 1 };
    const unitMonths = [...units].reduce((sum, [month, shipped]) => sum + shipped * monthsInService(month, today, window), 0);
    const count = claimsOf.get(monthInService) ?? 0;
    return { monthInService, claims: count, unitMonths, rate: perThousand(count, unitMonths) };
  });
}
