import type { Rate } from "./rate-ratio";

export interface PoissonCusum {
  /** Events allowed per unit of exposure: between the usual rate and the one to be found. */
  allowedRate: number;
  sums: readonly number[];
  /** Place of the first sum above the limit; null where there is none. */
  firstSignal: number | null;
  /** Place at which the rise likely began; null without a signal. */
  likelyStart: number | null;
}

/**
 * Cumulative sum of counts beyond what is allowed, month by month: the quickest way to find that a rate has risen by a
 * given factor, with months of different exposure. In a month without exposure nothing is allowed and nothing counted.
 *
 * Source: J. M. Lucas, "Counted data CUSUM's", Technometrics 27 (1985), from Page's sum of log likelihood ratios (from
 * memory; checked against R).
 *
 * @param usualRate events per unit of exposure when nothing is wrong
 * @param raisedRate the rate to be found, above the usual one
 * @example poissonCusum([{ count: 2, exposure: 120 }, ...], { usualRate: 0.015, raisedRate: 0.03, limit: 4 })
 * @throws when a rate is out of its range
 */
export function poissonCusum(months: readonly Rate[], { usualRate, raisedRate, limit }: { usualRate: number; raisedRate: number; limit: number }): PoissonCusum {
  if (!(usualRate > 0 && raisedRate > usualRate)) throw new Error("poissonCusum needs a usual rate above 0 and a raised one above it");
  const allowedRate = usualRate * allowedRatio(raisedRate / usualRate);
  const sums = runningSums(months.map(({ count, exposure }) => count - allowedRate * exposure));
  const firstSignal = sums.findIndex((sum) => sum > limit);
  return { allowedRate, sums, firstSignal: firstSignal < 0 ? null : firstSignal, likelyStart: firstSignal < 0 ? null : startOfRise(sums, firstSignal) };
}

/**
 * How many times the usual count is allowed before the sum rises: where both rates explain the count equally well.
 *
 * @example allowedRatio(2) // 1.4427
 */
function allowedRatio(raisedRatio: number): number {
  return (raisedRatio - 1) / Math.log(raisedRatio);
}

/** Adds up what comes, never below 0. */
function runningSums(steps: readonly number[]): readonly number[] {
  let sum = 0;
  return steps.map((step) => {
    sum = Math.max(0, sum + step);
    return sum;
  });
}

/**
 * The place after the last 0 before a signal: the likely start of the change.
 *
 * Source: E. S. Page, "Continuous inspection schemes", Biometrika 41 (1954) (from memory).
 */
export function startOfRise(sums: readonly number[], signal: number): number {
  return sums.slice(0, signal).findLastIndex((sum) => sum === 0) + 1;
}
