import gammaln from "@stdlib/math-base-special-gammaln";
import gammaCdf from "@stdlib/stats-base-dists-gamma-cdf";
import { minimumLikelihoodPValue } from "./minimum-likelihood-test";

/**
 * Exact two-sided test of a count against the count to be expected: whether the month, the kit, the fitter differs from
 * what it should be by more than chance.
 *
 * Source: the conditional tests of the Poisson distribution as in R's poisson.test; two-sided by minimum likelihood.
 *
 * @example poissonTest(137, 24.19893) // about 2.8e-56
 * @throws when an argument is out of its range
 */
export function poissonTest(count: number, expected: number): number {
  needCount("poissonTest", count, expected);
  return minimumLikelihoodPValue(count, {
    logProbability: (other) => other * Math.log(expected) - expected - gammaln(other + 1),
    mode: Math.floor(expected),
    largest: Number.POSITIVE_INFINITY,
  });
}

/**
 * Exact chance of at least so many events where so many are to be expected: small when there are too many. It is the
 * chance that a gamma variable of that shape stays under the expected count.
 *
 * @example atLeast(3, 1) // 0.0803...
 * @throws when an argument is out of its range
 */
export function atLeast(count: number, expected: number): number {
  needCount("atLeast", count, expected);
  return count === 0 ? 1 : gammaCdf(expected, count, 1);
}

function needCount(name: string, count: number, expected: number): void {
  if (!Number.isInteger(count) || count < 0) throw new Error(`${name} needs a whole count from 0`);
  if (!(expected > 0 && Number.isFinite(expected))) throw new Error(`${name} needs an expected count above 0`);
}
