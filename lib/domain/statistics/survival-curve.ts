import { type AtRisk, type Lifetime, timesOfFailure, unitsOf } from "./lifetimes";
import { normalDeviate } from "./normal";

export interface SurvivalStep extends AtRisk {
  /** Share still without failure after this time. */
  survival: number;
  /** Null once the curve has come down to 0: nothing is known of its spread there. */
  standardError: number | null;
  lower: number | null;
  upper: number | null;
}

export interface SurvivalCurve {
  steps: readonly SurvivalStep[];
  units: number;
  /** The longest time watched; nothing is known beyond. 0 without units. */
  longest: number;
  /** Time by which half have failed; null where fewer have. */
  median: number | null;
  medianLower: number | null;
  medianUpper: number | null;
}

/**
 * Share of units still without a claim, by time in service: uses every unit for as long as it was watched, though most
 * never fail. The band is computed on the log-log scale, so it stays within 0 and 1.
 *
 * Source: E. L. Kaplan and P. Meier, JASA 53 (1958), with the error of M. Greenwood (1926) (from memory; checked against
 * survfit in R).
 *
 * @example survivalCurve([{ time: 9, failed: true }, { time: 13, failed: false }, ...], 0.95)
 */
export function survivalCurve(lifetimes: readonly Lifetime[], confidence: number): SurvivalCurve {
  const deviate = normalDeviate(confidence);
  let survival = 1;
  let variance = 0;
  const steps = timesOfFailure(lifetimes).map(({ time, atRisk, failures }): SurvivalStep => {
    survival *= 1 - failures / atRisk;
    variance += failures / (atRisk * (atRisk - failures));
    if (failures === atRisk) return { time, atRisk, failures, survival: 0, standardError: null, lower: null, upper: null };
    const reach = Math.exp((deviate * Math.sqrt(variance)) / -Math.log(survival));
    return { time, atRisk, failures, survival, standardError: survival * Math.sqrt(variance), lower: survival ** reach, upper: survival ** (1 / reach) };
  });
  const longest = lifetimes.reduce((most, { time }) => Math.max(most, time), 0);
  return {
    steps,
    units: lifetimes.reduce((sum, lifetime) => sum + unitsOf(lifetime), 0),
    longest,
    median: medianOf(steps, longest),
    medianLower: steps.find(({ lower, survival: left }) => (lower ?? left) <= HALF)?.time ?? null,
    medianUpper: steps.find(({ upper }) => upper !== null && upper <= HALF)?.time ?? null,
  };
}

/**
 * The curve at a time.
 *
 * @returns null beyond the longest time watched
 */
export function survivalAt({ steps, longest }: SurvivalCurve, time: number): Pick<SurvivalStep, "survival" | "lower" | "upper"> | null {
  if (time > longest) return null;
  return steps.findLast((step) => step.time <= time) ?? { survival: 1, lower: 1, upper: 1 };
}

/** A product of shares seldom hits a half exactly. */
const HALF = 0.5 + 1e-9;

/** Where the curve runs level at a half, the middle of that stretch. */
function medianOf(steps: readonly SurvivalStep[], longest: number): number | null {
  const index = steps.findIndex(({ survival }) => survival <= HALF);
  const step = steps[index];
  if (!step) return null;
  return step.survival > 0.5 - 1e-9 ? (step.time + (steps[index + 1]?.time ?? longest)) / 2 : step.time;
}
