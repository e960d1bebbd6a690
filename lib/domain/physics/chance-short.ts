import { normalProbability } from "../statistics/normal";
import type { Estimate, Lognormal, Normal } from "./estimate";

/** Standard deviations beyond which nothing is left to count, and steps of the rule per standard deviation. */
const REACH = 7;
const STEPS_PER_DEVIATION = 8;

/** Points of the trapezoidal rule under the standard normal density, with their weights. */
const NORMAL_POINTS: readonly (readonly [deviate: number, weight: number])[] = (() => {
  const count = 2 * REACH * STEPS_PER_DEVIATION + 1;
  const points = Array.from({ length: count }, (_, i) => -REACH + i / STEPS_PER_DEVIATION);
  const total = points.reduce((sum, z) => sum + Math.exp((-z * z) / 2), 0);
  return points.map((z) => [z, Math.exp((-z * z) / 2) / total] as const);
})();

/** A chance averaged over a standard normal variable; the last digits of the sum may reach past 1. */
function averaged(chance: (deviate: number) => number): number {
  return Math.min(1, NORMAL_POINTS.reduce((sum, [deviate, weight]) => sum + weight * chance(deviate), 0));
}

/** Chance that a lognormal quantity is above a normal one: averaged over the narrower, in closed form over the other. */
function lognormalAboveNormal(high: Lognormal, low: Normal): number {
  if (high.logSpread * high.median < low.spread) {
    return averaged((z) => normalProbability((high.median * Math.exp(high.logSpread * z) - low.mean) / low.spread));
  }
  return averaged((z) => {
    const at = low.mean + low.spread * z;
    return at <= 0 ? 1 : normalProbability((Math.log(high.median) - Math.log(at)) / high.logSpread);
  });
}

/**
 * Probability of falling short: the chance that what is available is less than what is needed, each known with a
 * spread and independent of the other.
 *
 * Two normal or two lognormal quantities have a closed form. Of a mixed pair one is averaged over by the trapezoidal
 * rule, which converges exponentially for a smooth function under a normal density, so that 113 fixed points do; the
 * other one's distribution function makes it smooth, and the answer never jumps as an input moves.
 *
 * Source: stress-strength reliability; rule: Trefethen and Weideman (2014); both from memory, held against a simulation.
 * Example: available 10 with a spread of 2 against 12 with a spread of 1: the chance is that of -2 / sqrt(5), 0.814.
 */
export function chanceShort(available: Estimate, needed: Estimate): number {
  if (available.kind === "normal" && needed.kind === "normal") {
    return normalProbability((needed.mean - available.mean) / Math.hypot(available.spread, needed.spread));
  }
  if (available.kind === "lognormal" && needed.kind === "lognormal") {
    return normalProbability(Math.log(needed.median / available.median) / Math.hypot(available.logSpread, needed.logSpread));
  }
  if (needed.kind === "lognormal") return lognormalAboveNormal(needed, available as Normal);
  return 1 - lognormalAboveNormal(available as Lognormal, needed);
}
