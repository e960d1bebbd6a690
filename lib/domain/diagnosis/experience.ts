import type { CauseCode, Edition } from "./knowledge";

/** What was sold and what it was fitted to, by their ids in the catalogue; null where it is not known. */
export interface ClaimContext {
  kit: string | null;
  vehicle: string | null;
}

export const NO_CONTEXT: ClaimContext = { kit: null, vehicle: null };

/**
 * Experience with a kit: how many times the odds of each cause are those of any fitted unit, as confirmed verdicts have
 * shown. What is known of this kit on this vehicle counts before what is known of the kit alone; causes without either
 * are not among them.
 *
 * Example: a kit with a ratio of 2 for C01 and, on one vehicle, of 6 gives 6 there and 2 on every other vehicle.
 */
export function experienceWith({ kit, vehicle }: ClaimContext, { experience }: Edition): ReadonlyMap<CauseCode, number> {
  const ofKit = experience.filter((row) => row.kit === kit);
  const alone = ofKit.filter((row) => row.vehicle === null);
  const onVehicle = ofKit.filter((row) => row.vehicle !== null && row.vehicle === vehicle);
  return new Map([...alone, ...onVehicle].map(({ cause, oddsRatio }) => [cause, oddsRatio.value]));
}
