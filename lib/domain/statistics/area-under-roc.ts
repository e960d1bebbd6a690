import chisquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import type { Outcome } from "./brier-score";
import type { Interval } from "./poisson-interval";

/** Below so many of either kind the limits mean nothing. */
export const LEAST_FOR_LIMITS = 10;

/**
 * Area under the ROC curve: how often, of one case where it happened and one where it did not, the first was given the
 * higher score; a tie counts one half. It says nothing of calibration.
 *
 * Source: E. R. DeLong, D. M. DeLong and D. L. Clarke-Pearson, Biometrics 44 (1988), limits cut to 0..1, from memory;
 * checked against R's pROC. The limits are given for however few cases; see `LEAST_FOR_LIMITS`.
 *
 * @returns null where there are cases of one kind only
 * @example areaUnderRoc([0.1, 0.4, 0.35, 0.8], [0, 0, 1, 1], 0.95) // 3 of 4 pairs in order: 0.75
 */
export function areaUnderRoc(scores: readonly number[], outcomes: readonly Outcome[], confidence: number): Interval | null {
  const placed = scores.map((score, place) => ({ score, happened: outcomes[place] === 1 })).sort((a, b) => a.score - b.score);
  const positives = placed.filter(({ happened }) => happened).length;
  const negatives = placed.length - positives;
  if (positives === 0 || negatives === 0) return null;

  // Share of the other kind on the right side of each case, by one walk over groups of equal scores.
  const sharesOfPositives: number[] = [];
  const sharesOfNegatives: number[] = [];
  let below = 0;
  for (let start = 0, positivesBelow = 0; start < placed.length; ) {
    let end = start;
    while (end < placed.length && placed[end]?.score === placed[start]?.score) end++;
    const tiedPositives = placed.slice(start, end).filter(({ happened }) => happened).length;
    const tiedNegatives = end - start - tiedPositives;
    for (let i = 0; i < tiedPositives; i++) sharesOfPositives.push((below + tiedNegatives / 2) / negatives);
    for (let i = 0; i < tiedNegatives; i++) sharesOfNegatives.push((positives - positivesBelow - tiedPositives / 2) / positives);
    below += tiedNegatives;
    positivesBelow += tiedPositives;
    start = end;
  }
  const estimate = sharesOfPositives.reduce((sum, share) => sum + share, 0) / positives;
  const variance = varianceAround(sharesOfPositives, estimate) / positives + varianceAround(sharesOfNegatives, estimate) / negatives;
  const reach = Math.sqrt(chisquareQuantile(confidence, 1) * variance);
  return { estimate, lower: Math.max(0, estimate - reach), upper: Math.min(1, estimate + reach) };
}

function varianceAround(values: readonly number[], mean: number): number {
  return values.length < 2 ? 0 : values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1);
}
