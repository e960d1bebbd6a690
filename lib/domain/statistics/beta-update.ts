import betaCdf from "@stdlib/stats-base-dists-beta-cdf";
import betaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import type { Interval } from "./poisson-interval";

/** A Beta distribution by its two counts, which need not be whole. */
export interface Beta {
  alpha: number;
  beta: number;
}

/**
 * Beta counts: what is believed of a chance after some more trials; successes and failures are added to what was
 * believed before.
 *
 * Source: the conjugate prior of the binomial, any textbook, from memory; checked against R.
 *
 * @example betaUpdate({ alpha: 2, beta: 18 }, 7, 21) // { alpha: 9, beta: 39 }, mean 0.1875
 * @throws where a count is below 0, or nothing was believed before
 */
export function betaUpdate({ alpha, beta }: Beta, successes: number, failures: number): Beta {
  if (!(alpha > 0 && beta > 0)) throw new Error("betaUpdate needs a prior with counts above 0");
  if (!(successes >= 0 && failures >= 0)) throw new Error("betaUpdate needs counts from 0");
  return { alpha: alpha + successes, beta: beta + failures };
}

/** Mean and central interval of a Beta distribution. */
export function betaInterval({ alpha, beta }: Beta, confidence: number): Interval {
  const tail = (1 - confidence) / 2;
  return { estimate: alpha / (alpha + beta), lower: betaQuantile(tail, alpha, beta), upper: betaQuantile(1 - tail, alpha, beta) };
}

/** Probability that a chance so distributed lies above a threshold. */
export function betaAbove({ alpha, beta }: Beta, threshold: number): number {
  return betaCdf(1 - threshold, beta, alpha);
}
