import type { Cohort, SharedCohort } from "./cohorts";

/**
 * Shares shipments whose vehicle is not known out to vehicles, in proportion to the known ones of the same kit revision
 * over the whole period. Without it every rate would be too high, since a claim nearly always tells the vehicle. A
 * revision with no known vehicle at all keeps its shipments under "not known".
 *
 * @param isWanted which of the cohorts are asked for; all of them tell how to share out
 * @example 30 known for A, 10 for B and 20 not known: A has 30 + 15, B has 10 + 5
 */
export function shareOutUnknown(cohorts: readonly Cohort[], isWanted: (cohort: Cohort) => boolean = () => true): readonly SharedCohort[] {
  const parts = partsByVehicle(cohorts);
  const unknownByRevision = new Map(cohorts.filter(({ vehicleId }) => vehicleId === null).map(({ kitRevisionId, months }) => [kitRevisionId, new Map(months.map(({ month, shipped }) => [month, shipped]))]));
  return cohorts.filter(isWanted).map((cohort): SharedCohort => {
    const ofRevision = parts.get(cohort.kitRevisionId);
    if (cohort.vehicleId === null) return { ...cohort, months: cohort.months.map(({ month, shipped, claims }) => ({ month, known: ofRevision ? 0 : shipped, sharedOut: 0, claims })) };
    const part = ofRevision?.get(cohort.vehicleId) ?? 0;
    const unknown = part > 0 ? unknownByRevision.get(cohort.kitRevisionId) : undefined;
    const months = cohort.months.map(({ month, shipped, claims }) => ({ month, known: shipped, sharedOut: (unknown?.get(month) ?? 0) * part, claims }));
    if (unknown) {
      const own = new Set(cohort.months.map(({ month }) => month));
      for (const [month, shipped] of unknown) if (shipped > 0 && !own.has(month)) months.push({ month, known: 0, sharedOut: shipped * part, claims: 0 });
    }
    return { ...cohort, months };
  });
}

/** Which part of a kit revision's shipments of known vehicle went to each vehicle; nothing for a revision without any. */
export function partsByVehicle(cohorts: readonly Pick<Cohort, "kitRevisionId" | "vehicleId" | "months">[]): ReadonlyMap<string, ReadonlyMap<string, number>> {
  const shippedTo = new Map<string, Map<string, number>>();
  for (const { kitRevisionId, vehicleId, months } of cohorts) {
    const shipped = months.reduce((sum, month) => sum + month.shipped, 0);
    if (vehicleId === null || shipped === 0) continue;
    const vehicles = shippedTo.get(kitRevisionId) ?? new Map<string, number>();
    shippedTo.set(kitRevisionId, vehicles.set(vehicleId, (vehicles.get(vehicleId) ?? 0) + shipped));
  }
  return new Map(
    [...shippedTo].map(([kitRevisionId, vehicles]) => {
      const total = [...vehicles.values()].reduce((sum, shipped) => sum + shipped, 0);
      return [kitRevisionId, new Map([...vehicles].map(([vehicleId, shipped]) => [vehicleId, shipped / total]))];
    }),
  );
}
