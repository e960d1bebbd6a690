import { needForecasts, type Outcome } from "./brier-score";
import { wilsonInterval } from "./wilson-interval";
import type { Interval } from "./poisson-interval";

export interface ReliabilityBin {
  /** Its place among the bins of equal width, from 0. */
  bin: number;
  count: number;
  happened: number;
  meanProbability: number;
  /** Share that happened, with its Wilson interval: a few verdicts say little. */
  share: Interval;
}

export interface ReliabilityCurve {
  /** Empty bins are left out. */
  bins: readonly ReliabilityBin[];
  /** Mean distance of forecast and share, bins weighted by their counts. It depends on the bins and is never 0 by chance. */
  expectedCalibrationError: number;
  maximumCalibrationError: number;
}

/**
 * Reliability curve: of what was said to be so probable, how much came true. Bins of equal width; a forecast p falls
 * into bin min(floor(p * bins), bins - 1), without any rounding.
 *
 * Source: expected calibration error after Naeini, Cooper and Hauskrecht (2015), AAAI, from memory; checked against R.
 *
 * @param confidence of the interval of each bin
 * @example reliabilityCurve([0.1, 0.9], [0, 1], 2, 0.95) // two bins, each 0.1 off
 * @throws without a forecast, or with one outside 0..1
 */
export function reliabilityCurve(probabilities: readonly number[], outcomes: readonly Outcome[], bins: number, confidence: number): ReliabilityCurve {
  needForecasts("reliabilityCurve", probabilities, outcomes);
  const sums = Array.from({ length: bins }, () => ({ count: 0, happened: 0, probability: 0 }));
  probabilities.forEach((probability, place) => {
    const sum = sums[Math.min(Math.floor(probability * bins), bins - 1)];
    if (!sum) throw new Error("reliabilityCurve needs a whole number of bins from 1");
    sum.count += 1;
    sum.happened += outcomes[place] ?? 0;
    sum.probability += probability;
  });
  const filled = sums.flatMap(({ count, happened, probability }, bin): ReliabilityBin[] =>
    count === 0 ? [] : [{ bin, count, happened, meanProbability: probability / count, share: wilsonInterval(happened, count, confidence) }],
  );
  const distances = filled.map(({ count, meanProbability, share }) => ({ count, distance: Math.abs(meanProbability - share.estimate) }));
  return {
    bins: filled,
    expectedCalibrationError: distances.reduce((sum, { count, distance }) => sum + (count / probabilities.length) * distance, 0),
    maximumCalibrationError: Math.max(...distances.map(({ distance }) => distance)),
  };
}
