import erfc from "@stdlib/math-base-special-erfc";
import chisquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";

/**
 * How many standard errors an interval of this confidence reaches to either side. The square of a normal deviate is
 * chi-square with one degree of freedom.
 *
 * @example normalDeviate(0.95) // 1.9599...
 */
export function normalDeviate(confidence: number): number {
  if (!(confidence > 0 && confidence < 1)) throw new Error("normalDeviate needs a confidence between 0 and 1");
  return Math.sqrt(chisquareQuantile(confidence, 1));
}

/**
 * Chance that a standard normal variable stays at or under `deviate`.
 *
 * @example normalProbability(0) // 0.5
 */
export function normalProbability(deviate: number): number {
  return erfc(-deviate / Math.SQRT2) / 2;
}
