import gammaln from "@stdlib/math-base-special-gammaln";
import type { Interval } from "./poisson-interval";
import { type Lifetime, unitsOf } from "./lifetimes";
import { normalDeviate } from "./normal";

export type WeibullFit =
  | {
      kind: "fitted";
      /** Below 1: faults of the start die out; 1: at random; above 1: wear. */
      shape: Interval;
      /** Time by which 63 % have failed. */
      scale: Interval;
      /** Time by which 10 % have failed. */
      tenPercent: Interval;
      /** Mean time to failure; null where it is beyond numbers. */
      mean: number | null;
      logLikelihood: number;
      failures: number;
    }
  /** One failure tells no shape: give a bound on the rate instead. */
  | { kind: "too-few-failures"; failures: number }
  /** All failed at once and nothing outlasted them, or so nearly that no shape is too steep. */
  | { kind: "no-spread"; failures: number };

/**
 * Weibull distribution of the time to failure by maximum likelihood, with units that have not failed yet: what its shape
 * says about the kind of fault, and how many are still to come. With under 5 failures the shape comes out too high.
 *
 * The likelihood is solved for the shape alone, by halving on its logarithm with times in parts of the longest, so nothing
 * overflows; limits are Wald's on the logarithms.
 *
 * Source: NIST/SEMATECH e-Handbook, section 8.4.1.3; IEC 61649:2008 (from memory); checked against survreg in R.
 *
 * @example fitWeibull(lifetimes, 0.95) // the ten failures of the handbook: shape 1.72, scale 607
 * @throws when a time is not above 0
 */
export function fitWeibull(lifetimes: readonly Lifetime[], confidence: number): WeibullFit {
  if (!lifetimes.every(({ time }) => time > 0 && Number.isFinite(time))) throw new Error("fitWeibull needs times above 0");
  const failures = lifetimes.reduce((sum, lifetime) => sum + (lifetime.failed ? unitsOf(lifetime) : 0), 0);
  if (failures < 2) return { kind: "too-few-failures", failures };
  const longest = lifetimes.reduce((most, { time }) => Math.max(most, time), 0);
  const logTimes = lifetimes.map(({ time }) => Math.log(time / longest));
  const counts = lifetimes.map(unitsOf);
  const failed = lifetimes.map((lifetime) => (lifetime.failed ? unitsOf(lifetime) : 0));
  const meanLogOfFailed = logTimes.reduce((sum, logTime, index) => sum + (failed[index] ?? 0) * logTime, 0) / failures;

  // Rises with the shape; 0 at the most likely one.
  const slope = (logShape: number) => {
    const shape = Math.exp(logShape);
    let powers = 0;
    let weighted = 0;
    logTimes.forEach((logTime, index) => {
      const power = (counts[index] ?? 0) * Math.exp(shape * logTime);
      powers += power;
      weighted += power * logTime;
    });
    return weighted / powers - 1 / shape - meanLogOfFailed;
  };
  let low = Math.log(1e-4);
  let high = Math.log(STEEPEST_SHAPE);
  if (!(slope(low) < 0 && slope(high) > 0)) return { kind: "no-spread", failures };
  for (let round = 0; round < 70; round += 1) {
    const middle = (low + high) / 2;
    if (slope(middle) < 0) low = middle;
    else high = middle;
  }
  const shape = Math.exp((low + high) / 2);
  const logScale = Math.log(longest) + Math.log(logTimes.reduce((sum, logTime, index) => sum + (counts[index] ?? 0) * Math.exp(shape * logTime), 0) / failures) / shape;

  // Observed information in the logarithms of scale and spread, the spread being 1 / shape.
  let logLikelihood = 0;
  let mixed = 0;
  let squared = 0;
  logTimes.forEach((logTime, index) => {
    const standardised = shape * (logTime + Math.log(longest) - logScale);
    const hazard = (counts[index] ?? 0) * Math.exp(standardised);
    mixed += standardised * hazard;
    squared += standardised ** 2 * hazard;
    logLikelihood += (failed[index] ?? 0) * (standardised + Math.log(shape) - logTime - Math.log(longest)) - hazard;
  });
  const ofScale = failures * shape ** 2;
  const ofBoth = mixed * shape;
  const ofSpread = squared + failures;
  const determinant = ofScale * ofSpread - ofBoth ** 2;
  const variance = { scale: ofSpread / determinant, spread: ofScale / determinant, both: -ofBoth / determinant };
  const deviate = normalDeviate(confidence);
  const onLogScale = (log: number, itsVariance: number): Interval => {
    const reach = deviate * Math.sqrt(Math.max(0, itsVariance));
    return { estimate: Math.exp(log), lower: clamped(log - reach), upper: clamped(log + reach) };
  };
  // ln t = ln scale + spread * ln(-ln 0.9); its slope by the logarithm of the spread is the second term.
  const tenth = Math.log(-Math.log(0.9)) / shape;
  const mean = Math.exp(logScale + gammaln(1 + 1 / shape));
  return {
    kind: "fitted",
    shape: onLogScale(Math.log(shape), variance.spread),
    scale: onLogScale(logScale, variance.scale),
    tenPercent: onLogScale(logScale + tenth, variance.scale + 2 * tenth * variance.both + tenth ** 2 * variance.spread),
    mean: Number.isFinite(mean) ? mean : null,
    logLikelihood,
    failures,
  };
}

/** Beyond it all failures lie within a ten-thousandth of the longest time. */
const STEEPEST_SHAPE = 1e4;

/** A limit so far out that a number cannot hold it is cut at the largest. */
function clamped(log: number): number {
  return Math.min(Number.MAX_VALUE, Math.exp(log));
}
