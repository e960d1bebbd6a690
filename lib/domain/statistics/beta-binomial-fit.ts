import digamma from "@stdlib/math-base-special-digamma";
import gammaln from "@stdlib/math-base-special-gammaln";
import trigamma from "@stdlib/math-base-special-trigamma";
import type { Beta } from "./beta-update";
import type { Counts } from "./pooled-beta";

export interface BetaBinomialFit extends Beta {
  /** With the binomial coefficients. */
  logLikelihood: number;
}

/** Below so many groups the fit is unstable: fix the strength instead. */
export const LEAST_GROUPS_TO_FIT = 8;

const MOST_STEPS = 200;
/** A strength beyond this many trials says that the groups do not differ. */
const BOUNDLESS = 1e7;

const logBeta = (a: number, b: number) => gammaln(a) + gammaln(b) - gammaln(a + b);

function logLikelihoodOf(groups: readonly Counts[], a: number, b: number): number {
  return groups.reduce((sum, { successes: x, trials: n }) => sum + logBeta(a + x, b + n - x) - logBeta(a, b) - logBeta(x + 1, n - x + 1) - Math.log(n + 1), 0);
}

/**
 * How much groups differ in their chance: the Beta distribution that their counts most likely come from. `alpha + beta`
 * is the strength with which a group is to be drawn to the mean.
 *
 * Maximum of the beta-binomial likelihood by Newton's method in log(alpha) and log(beta), uphill where it does not curve
 * down. Source: J. G. Skellam, JRSS B 10 (1948), from memory; checked against R.
 *
 * @returns null where the groups differ no more than chance would have it, so that the strength has no bound
 * @example successes 3 0 5 2 9 1 4 of 20 14 31 40 38 22 19 give alpha 4.49 and beta 30.7
 * @throws without two groups that have trials
 */
export function betaBinomialFit(counts: readonly Counts[]): BetaBinomialFit | null {
  const groups = counts.filter(({ trials }) => trials > 0);
  if (groups.length < 2) throw new Error("betaBinomialFit needs two groups with trials");
  const total = groups.reduce((sum, { successes, trials }) => ({ successes: sum.successes + successes, trials: sum.trials + trials }), { successes: 0, trials: 0 });
  const mean = total.successes / total.trials;
  if (mean === 0 || mean === 1) return null;
  let [logA, logB] = [Math.log(20 * mean), Math.log(20 * (1 - mean))];
  let reached = logLikelihoodOf(groups, Math.exp(logA), Math.exp(logB));
  for (let step = 0; step < MOST_STEPS; step++) {
    const [a, b] = [Math.exp(logA), Math.exp(logB)];
    if (a + b > BOUNDLESS) return null;
    let [ga, gb, haa, hab, hbb] = [0, 0, 0, 0, 0];
    for (const { successes: x, trials: n } of groups) {
      const ofAll = digamma(a + b) - digamma(a + b + n);
      const curveOfAll = trigamma(a + b) - trigamma(a + b + n);
      ga += digamma(a + x) - digamma(a) + ofAll;
      gb += digamma(b + n - x) - digamma(b) + ofAll;
      haa += trigamma(a + x) - trigamma(a) + curveOfAll;
      hbb += trigamma(b + n - x) - trigamma(b) + curveOfAll;
      hab += curveOfAll;
    }
    // By log(a) and log(b).
    [ga, gb, haa, hab, hbb] = [a * ga, b * gb, a * a * haa + a * ga, a * b * hab, b * b * hbb + b * gb];
    const determinant = haa * hbb - hab * hab;
    const isPeaked = haa < 0 && determinant > 0;
    let [da, db] = isPeaked ? [(hab * gb - hbb * ga) / determinant, (hab * ga - haa * gb) / determinant] : [ga, gb];
    const size = Math.max(Math.abs(da), Math.abs(db));
    if (isPeaked && size < 1e-10) return { alpha: a, beta: b, logLikelihood: reached };
    if (size > 1) [da, db] = [da / size, db / size];
    let better = Number.NEGATIVE_INFINITY;
    for (let halving = 0; halving < 40; halving++) {
      better = logLikelihoodOf(groups, Math.exp(logA + da), Math.exp(logB + db));
      if (better >= reached) break;
      [da, db] = [da / 2, db / 2];
    }
    if (better < reached) return { alpha: a, beta: b, logLikelihood: reached };
    [logA, logB, reached] = [logA + da, logB + db, better];
  }
  return null;
}
