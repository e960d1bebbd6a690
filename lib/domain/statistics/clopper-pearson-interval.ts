import betaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import type { Interval } from "./poisson-interval";

/**
 * A share with its exact interval, never too narrow: for a promise, where Wilson's is for reading.
 *
 * Source: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) (from memory; checked against R's binom.test).
 *
 * @example exactShareInterval(15, 148, 0.95) // 0.0578 to 0.1617
 * @throws when an argument is out of its range
 */
export function exactShareInterval(successes: number, trials: number, confidence: number): Interval {
  if (!Number.isInteger(trials) || trials < 1) throw new Error("exactShareInterval needs at least one trial");
  if (!Number.isInteger(successes) || successes < 0 || successes > trials) throw new Error("exactShareInterval needs successes from 0 to the trials");
  const tail = (1 - confidence) / 2;
  return {
    estimate: successes / trials,
    lower: successes === 0 ? 0 : betaQuantile(tail, successes, trials - successes + 1),
    upper: successes === trials ? 1 : betaQuantile(1 - tail, successes + 1, trials - successes),
  };
}
