import gammaCdf from "@stdlib/stats-base-dists-gamma-cdf";
import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
import type { Rate } from "./rate-ratio";

/** How rates spread among kits, as a gamma distribution; `rate` counts as exposure seen before, `shape` as its events. */
export interface GammaPrior {
  shape: number;
  rate: number;
}

export interface ShrunkenRate {
  mean: number;
  median: number;
  lower: number;
  upper: number;
}

/**
 * A rate drawn towards what is usual, the more so the less has been seen of it, so that no small number fools anybody.
 * A gamma prior and a Poisson count make a gamma posterior.
 *
 * Source: H. Robbins, "An empirical Bayes approach to statistics" (1956); D. Clayton and J. Kaldor, "Empirical Bayes
 * estimates of age-standardized relative risks", Biometrics 43 (1987) (both from memory; checked against R).
 *
 * @example shrunkenRate({ count: 4, exposure: 210 }, { shape: 1.8, rate: 240 }, 0.95) // mean 0.0129, 0.0046 to 0.0253
 * @throws when an argument is out of its range
 */
export function shrunkenRate({ count, exposure }: Rate, prior: GammaPrior, confidence: number): ShrunkenRate {
  const shape = prior.shape + count;
  const rate = prior.rate + exposure;
  if (!(count >= 0 && exposure >= 0)) throw new Error("shrunkenRate needs a count and an exposure from 0");
  if (!(prior.shape > 0 && prior.rate > 0)) throw new Error("shrunkenRate needs a prior above 0");
  const tail = (1 - confidence) / 2;
  return {
    mean: shape / rate,
    median: gammaQuantile(0.5, shape, rate),
    lower: gammaQuantile(tail, shape, rate),
    upper: gammaQuantile(1 - tail, shape, rate),
  };
}

/**
 * How sure it is that the rate lies above a line.
 *
 * @example chanceAbove(0.01, { count: 4, exposure: 210 }, { shape: 1.8, rate: 240 }) // 0.672
 */
export function chanceAbove(line: number, { count, exposure }: Rate, prior: GammaPrior): number {
  return 1 - gammaCdf(line, prior.shape + count, prior.rate + exposure);
}
