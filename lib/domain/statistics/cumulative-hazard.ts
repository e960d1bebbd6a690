import { type AtRisk, type Lifetime, timesOfFailure } from "./lifetimes";

export interface HazardStep extends AtRisk {
  cumulativeHazard: number;
  standardError: number;
}

/**
 * Cumulative hazard: failures per unit at risk, added up. It bends down where faults show early, runs straight where they
 * come at random, and bends up with wear.
 *
 * Source: W. Nelson (1972) and O. Aalen (1978) (from memory; checked against survfit in R).
 *
 * @example cumulativeHazard([{ time: 9, failed: true }, ...]) // 1/11 after the first of eleven
 */
export function cumulativeHazard(lifetimes: readonly Lifetime[]): readonly HazardStep[] {
  let hazard = 0;
  let variance = 0;
  return timesOfFailure(lifetimes).map((step) => {
    hazard += step.failures / step.atRisk;
    variance += step.failures / step.atRisk ** 2;
    return { ...step, cumulativeHazard: hazard, standardError: Math.sqrt(variance) };
  });
}
