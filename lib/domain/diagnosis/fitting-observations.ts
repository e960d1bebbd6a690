import { checkObservation } from "./check-observation";
import type { Edition } from "./knowledge";
import type { Observation } from "./observation";

/**
 * The observations an edition can read. One kept under an earlier edition may speak of a finding that has been retired
 * or is answered otherwise now: it stays with the claim and counts for nothing.
 *
 * Example: under an edition without F36, "F36 present" is left out.
 */
export function fittingObservations(observations: readonly Observation[], edition: Edition): Observation[] {
  return observations.filter((observation) => checkObservation(observation, edition).ok);
}
