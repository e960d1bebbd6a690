import betaCdf from "@stdlib/stats-base-dists-beta-cdf";

/**
 * Exact chance of at least so many events where the expected count is itself only known so well: negative binomial, the
 * mixture of Poisson counts over a gamma of that mean and spread. With no spread it is the Poisson chance.
 *
 * Source: M. Greenwood and G. U. Yule (1920); tail by the incomplete beta function (from memory).
 *
 * @param relativeVariance square of the standard error of the expected count in parts of it
 * @example atLeastOfUncertain(8, 2, 0) // 0.0011, and 0.0081 where the expected count is known within a half
 * @throws when an argument is out of its range
 */
export function atLeastOfUncertain(count: number, expected: number, relativeVariance: number): number {
  if (!Number.isInteger(count) || count < 0) throw new Error("atLeastOfUncertain needs a whole count from 0");
  if (!(expected > 0 && Number.isFinite(expected))) throw new Error("atLeastOfUncertain needs an expected count above 0");
  if (!(relativeVariance >= 0)) throw new Error("atLeastOfUncertain needs a variance from 0");
  if (count === 0) return 1;
  // Beyond this the two differ by less than rounding.
  const shape = Math.min(1e9, 1 / relativeVariance);
  return betaCdf(expected / (shape + expected), count, shape);
}
