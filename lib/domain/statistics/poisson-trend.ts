import { normalDeviate, normalPValue } from "./normal";
import type { Rate } from "./rate-ratio";

export interface MonthlyRate extends Rate {
  month: number;
}

export type PoissonTrend =
  | {
      kind: "fitted";
      /** Logarithm of the rate in month 0. */
      intercept: number;
      /** Growth of the logarithm of the rate, a month. */
      slope: number;
      slopeStandardError: number;
      /** How many times the rate of the month before, with its limits. */
      ratioPerMonth: { estimate: number; lower: number; upper: number };
      pValue: number;
      deviance: number;
      /** Squared deviations per degree of freedom; well above 1, widen the error by its root. Null with two months. */
      dispersion: number | null;
    }
  | { kind: "nothing-happened" }
  /** Under two months, or all events in the first or the last of them: any slope, however steep, fits better. */
  | { kind: "no-finite-slope" };

/**
 * Whether a rate rises or falls by a constant factor a month: a log-linear Poisson model with the exposure as offset, by
 * iteratively reweighted least squares about the middle month.
 *
 * Source: P. McCullagh and J. A. Nelder, "Generalized linear models" (1989) (from memory; checked against R's glm).
 *
 * @example poissonTrend([{ month: 0, count: 4, exposure: 300 }, { month: 1, count: 6, exposure: 320 }, ...], 0.95)
 */
export function poissonTrend(months: readonly MonthlyRate[], confidence: number): PoissonTrend {
  const exposed = months.filter(({ exposure }) => exposure > 0);
  const count = exposed.reduce((sum, month) => sum + month.count, 0);
  const exposure = exposed.reduce((sum, month) => sum + month.exposure, 0);
  if (count === 0) return { kind: "nothing-happened" };
  const numbers = exposed.map(({ month }) => month);
  const first = Math.min(...numbers);
  const last = Math.max(...numbers);
  const eventful = new Set(exposed.filter((month) => month.count > 0).map(({ month }) => month));
  if (first === last || (eventful.size === 1 && (eventful.has(first) || eventful.has(last)))) return { kind: "no-finite-slope" };

  // Months in parts of the whole span, from its middle: the two coefficients then hardly lean on each other.
  const middle = (first + last) / 2;
  const span = (last - first) / 2;
  const placed = exposed.map((month) => ({ ...month, at: (month.month - middle) / span }));
  let level = Math.log(count / exposure);
  let steepness = 0;
  let information = weigh(placed, level, steepness);
  for (let round = 0; round < 200; round += 1) {
    const determinant = information.level * information.slope - information.both ** 2;
    const stepLevel = (information.slope * information.byLevel - information.both * information.bySlope) / determinant;
    const stepSlope = (information.level * information.bySlope - information.both * information.byLevel) / determinant;
    let part = Math.min(1, 3 / Math.max(Math.abs(stepLevel), Math.abs(stepSlope), 1e-300));
    let next = weigh(placed, level + part * stepLevel, steepness + part * stepSlope);
    while (next.logLikelihood < information.logLikelihood && part > 1e-9) {
      part /= 2;
      next = weigh(placed, level + part * stepLevel, steepness + part * stepSlope);
    }
    if (next.logLikelihood < information.logLikelihood) break;
    level += part * stepLevel;
    steepness += part * stepSlope;
    information = next;
    if (Math.abs(stepLevel) + Math.abs(stepSlope) < 1e-12) break;
  }

  const slope = steepness / span;
  const slopeStandardError = Math.sqrt(information.level / (information.level * information.slope - information.both ** 2)) / span;
  const reach = normalDeviate(confidence) * slopeStandardError;
  const deviance = placed.reduce((sum, month) => {
    const mean = month.exposure * Math.exp(level + steepness * month.at);
    return sum + 2 * ((month.count > 0 ? month.count * Math.log(month.count / mean) : 0) - (month.count - mean));
  }, 0);
  const squares = placed.reduce((sum, month) => {
    const mean = month.exposure * Math.exp(level + steepness * month.at);
    return sum + (mean > 1e-300 ? (month.count - mean) ** 2 / mean : 0);
  }, 0);
  return {
    kind: "fitted",
    intercept: level - slope * middle,
    slope,
    slopeStandardError,
    ratioPerMonth: { estimate: Math.exp(slope), lower: Math.exp(slope - reach), upper: Math.exp(Math.min(700, slope + reach)) },
    pValue: normalPValue(slope / slopeStandardError),
    deviance,
    dispersion: placed.length > 2 ? squares / (placed.length - 2) : null,
  };
}

function weigh(months: readonly (Rate & { at: number })[], level: number, steepness: number) {
  const sums = { logLikelihood: 0, byLevel: 0, bySlope: 0, level: 0, both: 0, slope: 0 };
  for (const { count, exposure, at } of months) {
    const mean = exposure * Math.exp(level + steepness * at);
    sums.logLikelihood += count * (level + steepness * at) - mean;
    sums.byLevel += count - mean;
    sums.bySlope += (count - mean) * at;
    sums.level += mean;
    sums.both += mean * at;
    sums.slope += mean * at ** 2;
  }
  return sums;
}
