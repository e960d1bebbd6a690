import type { MeasuredFinding } from "./knowledge";

/** Of a hundred numbers about one is of the wrong part, in the wrong unit or misread (judgement). */
const GROSS_ERROR = 0.01;

/**
 * Normal distribution function: the chance that a standard normal lies below z.
 * Source: Abramowitz and Stegun (1964) 7.1.26, absolute error of erf at most 1.5e-7.
 * Example: z = 1.96 gives 0.975.
 */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const polynomial = ((((1.061405429 * t - 1.453152027) * t + 1.421413741) * t - 0.284496736) * t + 0.254829592) * t;
  const erf = 1 - polynomial * Math.exp(-x * x);
  return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2;
}

/**
 * Probability that a measured quantity is beyond its limit, given the reading and its spread, with a floor on both
 * sides for gross errors.
 *
 * Example: a bore of 12 mm against a limit of 13.5 mm with a spread of 1.5 mm is one spread short:
 * 0.01 + 0.98 * 0.841 = 0.834.
 */
export function probabilityBeyondLimit(measured: number, { value, side, spread }: MeasuredFinding["limit"]): number {
  const short = (value - measured) / spread;
  const beyond = normalBelow(side === "below-is-bad" ? short : -short);
  return GROSS_ERROR + (1 - 2 * GROSS_ERROR) * beyond;
}

/**
 * Likelihood ratio of a reading for "beyond the limit": how many times as likely the reading is when the quantity is
 * beyond it as when it is within. With no opinion beforehand on which side it lies these are q and 1 - q, q being
 * the probability of lying beyond.
 *
 * Example: a bore of 12 mm as above gives 0.834 / 0.166 = 5.0.
 */
export function readingRatio(measured: number, limit: MeasuredFinding["limit"]): number {
  const beyond = probabilityBeyondLimit(measured, limit);
  return beyond / (1 - beyond);
}
