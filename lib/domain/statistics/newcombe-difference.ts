import type { Interval } from "./poisson-interval";
import { wilsonInterval } from "./wilson-interval";

export interface Share {
  successes: number;
  trials: number;
}

/**
 * Difference of two shares with its interval, from the score limits of each: no fault found before and after a change.
 *
 * Source: R. G. Newcombe, "Interval estimation for the difference between independent proportions", Statistics in Medicine
 * 17 (1998), method 10 (from memory; checked in R).
 *
 * @example differenceOfShares({ successes: 56, trials: 70 }, { successes: 48, trials: 80 }, 0.95) // 0.2, 0.052 to 0.334
 */
export function differenceOfShares(first: Share, second: Share, confidence: number): Interval {
  const one = wilsonInterval(first.successes, first.trials, confidence);
  const other = wilsonInterval(second.successes, second.trials, confidence);
  const estimate = one.estimate - other.estimate;
  return {
    estimate,
    lower: estimate - Math.hypot(one.estimate - one.lower, other.upper - other.estimate),
    upper: estimate + Math.hypot(one.upper - one.estimate, other.estimate - other.lower),
  };
}
