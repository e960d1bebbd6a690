import { type Interval, poissonInterval } from "./poisson-interval";

export interface Stratum {
  /** Events per unit of exposure elsewhere. */
  rate: number;
  /** Exposure here. */
  exposure: number;
}

/** Events to be expected here if each stratum went as it goes elsewhere. */
export function expectedCount(strata: readonly Stratum[]): number {
  return strata.reduce((total, { rate, exposure }) => total + rate * exposure, 0);
}

/**
 * Observed over expected, with exact limits on the observed: how many times what it ought to be. The expected count is
 * taken as known, so the interval is a little narrow where the reference itself rests on few events.
 *
 * Source: N. E. Breslow and N. E. Day, "Statistical methods in cancer research", vol. 2 (1987), indirect
 * standardisation (from memory; checked against R).
 *
 * @example standardisedRatio(23, 17.5, 0.95) // { estimate: 1.314..., lower: 0.833..., upper: 1.972... }
 * @throws when an argument is out of its range
 */
export function standardisedRatio(observed: number, expected: number, confidence: number): Interval {
  return poissonInterval(observed, expected, confidence);
}
