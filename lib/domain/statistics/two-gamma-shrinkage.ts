import digamma from "@stdlib/math-base-special-digamma";
import gammaln from "@stdlib/math-base-special-gammaln";
import gammaCdf from "@stdlib/stats-base-dists-gamma-cdf";

/** A gamma distribution; of what was seen before, `shape` counts as events and `rate` as exposure. */
export interface GammaPrior {
  shape: number;
  rate: number;
}

/** Most cells are usual, some stand out: how ratios of observed to expected counts spread. */
export interface TwoGammaPrior {
  first: GammaPrior;
  second: GammaPrior;
  /** Part of the cells that belong to the first. */
  weightOfFirst: number;
}

/**
 * The starting values of the source for its five-parameter fit, kept as they are: on tables under some hundred cells with
 * claims the fit is flat, and one prior for all months keeps signals comparable from month to month.
 */
export const STARTING_PRIOR: TwoGammaPrior = { first: { shape: 0.2, rate: 0.1 }, second: { shape: 2, rate: 4 }, weightOfFirst: 1 / 3 };

export interface ShrunkenRatio {
  /** Geometric mean of the posterior: how many times the expected, by the best guess. */
  ratio: number;
  /** The ratio lies below with a chance of 5 %, above `upper` with the same. */
  lower: number;
  upper: number;
  /** Chance that the cell belongs to the first gamma. */
  weightOfFirst: number;
}

/**
 * How many times the expected count a cell has, drawn towards 1 where little was seen. With two gammas the cells that
 * stand out are drawn in less than one gamma for all would draw them.
 *
 * Source: W. DuMouchel, "Bayesian data mining in large frequency tables", The American Statistician 53 (1999),
 * equations 6 to 11 (from memory; checked against the package openEBGM of R).
 *
 * @example shrunkenRatio(10, 2.5, STARTING_PRIOR) // 3.60, 1.89 to 6.10
 * @throws when an argument is out of its range
 */
export function shrunkenRatio(count: number, expected: number, prior: TwoGammaPrior): ShrunkenRatio {
  if (!Number.isInteger(count) || count < 0) throw new Error("shrunkenRatio needs a whole count from 0");
  if (!(expected > 0 && Number.isFinite(expected))) throw new Error("shrunkenRatio needs an expected count above 0");
  const { first, second } = prior;
  const logOdds =
    Math.log(prior.weightOfFirst / (1 - prior.weightOfFirst)) + logProbability(count, expected, first) - logProbability(count, expected, second);
  const weightOfFirst = 1 / (1 + Math.exp(-logOdds));
  const meanLog = ({ shape, rate }: GammaPrior) => digamma(shape + count) - Math.log(rate + expected);
  const below = (ratio: number) =>
    weightOfFirst * gammaCdf(ratio, first.shape + count, first.rate + expected) + (1 - weightOfFirst) * gammaCdf(ratio, second.shape + count, second.rate + expected);
  return {
    ratio: Math.exp(weightOfFirst * meanLog(first) + (1 - weightOfFirst) * meanLog(second)),
    lower: quantile(0.05, below),
    upper: quantile(0.95, below),
    weightOfFirst,
  };
}

/** Negative binomial, up to what both gammas share. */
function logProbability(count: number, expected: number, { shape, rate }: GammaPrior): number {
  return gammaln(shape + count) - gammaln(shape) + shape * Math.log(rate) - (shape + count) * Math.log(rate + expected);
}

/** Halves the interval on the logarithm until nothing is left to halve. */
function quantile(part: number, below: (ratio: number) => number): number {
  let low = Math.log(1e-300);
  let high = Math.log(1e300);
  for (let round = 0; round < 80; round += 1) {
    const middle = (low + high) / 2;
    if (below(Math.exp(middle)) < part) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
