import gammaln from "@stdlib/math-base-special-gammaln";
import betaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import { minimumLikelihoodPValue } from "./minimum-likelihood-test";

export interface Rate {
  /** Events, a whole number from 0. */
  count: number;
  /** Above 0, in the same unit for both. */
  exposure: number;
}

/** How many times as high one rate is as another; without an event in the other there is no end to it. */
export interface RateRatio {
  ratio: number | "infinite";
  lower: number;
  upper: number | "infinite";
  /** Two-sided, of both rates being the same. */
  pValue: number;
}

/**
 * Ratio of two rates with its exact interval: whether claims fell after a drawing was changed, and by how much at least.
 * Given the sum of both counts, the first is binomial, with a chance that depends on the ratio alone.
 *
 * Source: J. Przyborowski and H. Wilenski, "Homogeneity of results in testing samples from Poisson series", Biometrika
 * 31 (1940) (from memory; checked against R's poisson.test).
 *
 * @example rateRatio({ count: 11, exposure: 800 }, { count: 21, exposure: 3011 }, 0.95) // ratio 1.97, 0.858 to 4.277, p 0.0797
 * @returns null where neither has an event: then nothing is known of the ratio
 * @throws when an argument is out of its range
 */
export function rateRatio(first: Rate, second: Rate, confidence: number): RateRatio | null {
  needRates(first, second, confidence);
  const total = first.count + second.count;
  if (total === 0) return null;
  const tail = (1 - confidence) / 2;
  const perOdds = second.exposure / first.exposure;
  // The complement is taken from its own quantile: 1 - p would lose its digits where p is close to 1.
  const oddsAt = (part: number, of: number, rest: number) => betaQuantile(part, of, rest) / betaQuantile(1 - part, rest, of);
  return {
    ratio: second.count === 0 ? "infinite" : first.count / first.exposure / (second.count / second.exposure),
    lower: first.count === 0 ? 0 : oddsAt(tail, first.count, second.count + 1) * perOdds,
    upper: second.count === 0 ? "infinite" : oddsAt(1 - tail, first.count + 1, second.count) * perOdds,
    pValue: binomialTest(first.count, total, first.exposure / (first.exposure + second.exposure)),
  };
}

/**
 * Exact two-sided test of so many successes against the chance of one, by minimum likelihood.
 *
 * @example binomialTest(11, 32, 800 / 3811) // 0.0797
 */
export function binomialTest(successes: number, trials: number, chance: number): number {
  return minimumLikelihoodPValue(successes, {
    logProbability: (count) =>
      gammaln(trials + 1) - gammaln(count + 1) - gammaln(trials - count + 1) + count * Math.log(chance) + (trials - count) * Math.log1p(-chance),
    mode: Math.min(trials, Math.floor((trials + 1) * chance)),
    largest: trials,
  });
}

function needRates(first: Rate, second: Rate, confidence: number): void {
  for (const { count, exposure } of [first, second]) {
    if (!Number.isInteger(count) || count < 0) throw new Error("rateRatio needs whole counts from 0");
    if (!(exposure > 0 && Number.isFinite(exposure))) throw new Error("rateRatio needs exposures above 0");
  }
  if (!(confidence > 0 && confidence < 1)) throw new Error("rateRatio needs a confidence between 0 and 1");
}
