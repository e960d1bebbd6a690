import { normalDeviate } from "../statistics/normal";
import { type Interval, poissonInterval } from "../statistics/poisson-interval";
import { atLeastOfUncertain } from "../statistics/predictive-count";
import { laneyChart } from "../statistics/u-chart";
import { type Change, cumulativeDepartures, findChanges } from "./control-chart-change";
import type { Completeness } from "./control-chart-delay";
import { type Season, seasonFactor, seasonOf } from "./control-chart-season";
import { CONFIDENCE } from "./figures";
import type { Month } from "./month";

/** A month to be drawn: its claims so far, on what, and how much of its claims is known. */
export interface MonthToChart extends Completeness {
  month: Month;
  claims: number;
  /** Units shipped, or unit-months in service. */
  exposure: number;
}

export interface ChartedMonth extends MonthToChart {
  /** `complete`; `incomplete`: some claims are still to come and are allowed for; `too-new`: too few are in to judge by; `empty`: nothing to divide by. */
  kind: "complete" | "incomplete" | "too-new" | "empty";
  /** Claims per 1,000, with those still to come; null where there is nothing to divide by, or too little is known. */
  rate: Interval | null;
  /** Per 1,000: what chance leaves, by season, about the level of its stretch. Null where the month is not judged. */
  limits: { center: number; lower: number; upper: number } | null;
  outside: "above" | "below" | null;
  /** Claims beyond the mean so far, by season; null where the month is not judged. */
  cumulative: number | null;
}

export interface ControlChart {
  months: readonly ChartedMonth[];
  /** Of the months judged. */
  judged: { claims: number; exposure: number; months: number };
  /** How many times wider months spread than counts alone would; never below 1. */
  widening: number;
  season: Season;
  /** Places are those of `months`. */
  changes: readonly Change[];
}

/** From this share on a month counts as known. */
export const NEARLY_ALL = 0.95;
/** With less than this share in, a month is drawn and not judged (judgement). */
export const TOO_LITTLE = 0.2;

const SIGMAS = 3;
/** Chance beyond three standard deviations on one side of a normal variable. */
const BEYOND = 0.00135;
/** With fewer claims to be expected than this a lower limit of three deviations lies under 0. */
const SMALL_COUNT = 9;

/**
 * Claims by month against what chance leaves: a u-chart with Laney's widening, exact limits where counts are small (there
 * counting outweighs all else, and one month far out would widen its own limits), and a level that steps where the rate changed. Months that still wait for claims are brought to what they will be: their
 * exposure counts only as far as claims about it have come in, and their limits are as much wider as that is unsure. What
 * comes back each year moves the limits and is no change.
 *
 * Source: NIST/SEMATECH e-Handbook, section 6.3.3.1; D. B. Laney, Quality Engineering 14 (2002) (from memory); exact limits
 * are those of the Poisson distribution, mixed over what is not sure.
 *
 * @param months in order, without a gap
 */
export function controlChart(months: readonly MonthToChart[]): ControlChart {
  const isJudged = ({ exposure, share }: MonthToChart) => exposure > 0 && share >= TOO_LITTLE;
  const counted = months.map((month) => ({ month: month.month, count: isJudged(month) ? month.claims : 0, size: isJudged(month) ? (month.exposure * month.share) / 1000 : 0 }));
  const rough = Math.max(1, laneyChart(counted, SIGMAS)?.widening ?? 1);
  const season = seasonOf(withoutEdges(counted), rough);
  const seasonal = counted.map((month) => ({ ...month, size: month.size * seasonFactor(season, month.month) }));
  const widening = Math.max(1, laneyChart(seasonal, SIGMAS)?.widening ?? 1);
  const changes = findChanges(seasonal, widening);
  const departures = cumulativeDepartures(seasonal);

  const charted = months.map((month, place): ChartedMonth => {
    const size = (month.exposure * month.share) / 1000;
    const kind = !(month.exposure > 0) ? "empty" : month.share < TOO_LITTLE ? "too-new" : month.share < NEARLY_ALL ? "incomplete" : "complete";
    const rate = isJudged(month) ? withUncertainShare(poissonInterval(month.claims, size, CONFIDENCE), month.relativeVariance) : null;
    const level = levelAt(seasonal, changes, place);
    if (!isJudged(month) || level === null) return { ...month, kind, rate, limits: null, outside: null, cumulative: null };
    const center = level * seasonFactor(season, month.month);
    const limits = center * size < SMALL_COUNT ? exactLimits(center, size, month.relativeVariance) : wideLimits(center, size, widening, month.relativeVariance);
    const own = month.claims / size;
    return { ...month, kind, rate, limits: { center, ...limits }, outside: own > limits.upper ? "above" : own < limits.lower ? "below" : null, cumulative: departures[place] ?? null };
  });
  const judged = charted.filter(({ limits }) => limits !== null);
  return {
    months: charted,
    judged: { claims: judged.reduce((sum, { claims }) => sum + claims, 0), exposure: judged.reduce((sum, { exposure, share }) => sum + exposure * share, 0), months: judged.length },
    widening,
    season,
    changes,
  };
}

/** A year is counted from the first to the last month that has something to tell. */
function withoutEdges<T extends { size: number }>(months: readonly T[]): readonly T[] {
  const first = months.findIndex(({ size }) => size > 0);
  return first < 0 ? [] : months.slice(first, months.findLastIndex(({ size }) => size > 0) + 1);
}

/** Rate of the stretch between changes; null where nothing is exposed in it. */
function levelAt(months: readonly { count: number; size: number }[], changes: readonly Change[], place: number): number | null {
  const from = changes.findLast(({ start }) => start <= place)?.start ?? 0;
  const to = changes.find(({ start }) => start > place)?.start ?? months.length;
  const stretch = months.slice(from, to);
  const size = stretch.reduce((sum, month) => sum + month.size, 0);
  return size > 0 ? stretch.reduce((sum, { count }) => sum + count, 0) / size : null;
}

function wideLimits(center: number, size: number, widening: number, relativeVariance: number): { lower: number; upper: number } {
  const reach = SIGMAS * Math.sqrt((center / size) * widening ** 2 + center ** 2 * relativeVariance);
  return { lower: Math.max(0, center - reach), upper: center + reach };
}

/** Half way between the last count that chance leaves and the first that it does not. */
function exactLimits(center: number, size: number, relativeVariance: number): { lower: number; upper: number } {
  const expected = center * size;
  if (!(expected > 0)) return { lower: 0, upper: 0.5 / size };
  let tooMany = Math.max(1, Math.ceil(expected));
  while (atLeastOfUncertain(tooMany, expected, relativeVariance) > BEYOND) tooMany += 1;
  let tooFew = Math.floor(expected);
  while (tooFew >= 0 && 1 - atLeastOfUncertain(tooFew + 1, expected, relativeVariance) > BEYOND) tooFew -= 1;
  return { lower: tooFew < 0 ? 0 : (tooFew + 0.5) / size, upper: (tooMany - 0.5) / size };
}

/** An interval of a rate, widened on the logarithm by how unsure the share is that it was divided by. */
function withUncertainShare({ estimate, lower, upper }: Interval, relativeVariance: number): Interval {
  const unsure = normalDeviate(CONFIDENCE) * Math.sqrt(relativeVariance);
  if (estimate === 0) return { estimate, lower, upper: upper * Math.exp(unsure) };
  return { estimate, lower: estimate * Math.exp(-Math.hypot(Math.log(estimate / lower), unsure)), upper: estimate * Math.exp(Math.hypot(Math.log(upper / estimate), unsure)) };
}
