import { type Cohort, forecastByAge, forecastInterval } from "../statistics/age-rate-forecast";
import { chainLadder } from "../statistics/chain-ladder";
import { normalDeviate } from "../statistics/normal";
import type { Interval } from "../statistics/poisson-interval";
import { CONFIDENCE } from "./figures";
import { sumBy } from "./filed-claims";
import { eachMonthOf, type Month, monthsBetween, monthsLater, type Period } from "./month";

/** What claims that have come to their end cost in one currency, in its smallest unit. */
export interface CostSpread {
  currency: string;
  /** Claims that money was booked for. */
  paid: number;
  totalMinor: number;
  squaredMinor: number;
}

/** What a claim costs, those that cost nothing counted in. */
export interface CostPerClaim {
  currency: string;
  /** Claims with a verdict or another end. */
  ended: number;
  paid: number;
  meanMinor: number;
  /** Standard deviation from claim to claim. */
  deviationMinor: number;
}

export interface MonthAhead {
  month: Month;
  /** Claims expected in it. */
  claims: number;
  /** Claims expected from now to its end. */
  upTo: Interval;
  /** Some units grow older by then than any has been: at least so many. */
  isAtLeast: boolean;
}

export interface ClaimsForecast {
  units: number;
  /** Filed in whole months so far; the forecast rests on them. */
  claims: number;
  /** Months since shipping that enough units have been through to learn from. */
  oldestAge: number;
  months: readonly MonthAhead[];
  /** Until every unit has been through these, by two ways. */
  untilOldest: { byAge: Interval; byLadder: { estimate: number; standardError: number | null } | null } | null;
}

/** An age that a smaller part of the units has reached is told by too few: nothing is assumed of it (judgement). */
const ENOUGH_AT_AN_AGE = 0.1;

/** Fewer ended claims do not tell what a claim costs (judgement). */
export const FEWEST_ENDED = 10;

/**
 * Claims still to come of what is in the field, from the first of this month on: each month since shipping brings what it
 * brought in the units that have been through it. Nothing is assumed beyond the oldest age that a tenth of them has reached.
 *
 * Source: see `forecastByAge`, `forecastInterval` and `chainLadder`.
 *
 * @param units shipped, by month
 * @param claims by months of shipping and filing
 * @returns null where nothing was shipped before this month: there is nothing to learn from
 */
export function forecastClaims({
  units,
  claims,
  today,
  horizonMonths,
}: {
  units: ReadonlyMap<Month, number>;
  claims: readonly { month: Month; filed: Month; claims: number }[];
  today: string;
  horizonMonths: number;
}): ClaimsForecast | null {
  const thisMonth = today.slice(0, 7);
  const shipped = [...units.keys()].filter((month) => month <= thisMonth && (units.get(month) ?? 0) > 0).sort();
  const [first] = shipped;
  if (first === undefined || first === thisMonth) return null;
  const watched = cohortsByMonth(units, claims, { from: first, to: thisMonth });
  const all = watched.reduce((sum, cohort) => sum + cohort.units, 0);
  const { byAge } = forecastByAge(watched, 0);
  const oldestAge = Math.max(1, byAge.findLastIndex(({ exposure }) => exposure >= ENOUGH_AT_AN_AGE * all) + 1);
  const cohorts = watched.map((cohort) => ({ ...cohort, claimsByAge: cohort.claimsByAge.slice(0, oldestAge) }));
  let before = 0;
  const months = Array.from({ length: horizonMonths }, (_, ahead): MonthAhead => {
    const { total, goesBeyondOldestAge } = forecastByAge(cohorts, ahead + 1);
    const told = forecastInterval(cohorts, ahead + 1, CONFIDENCE) ?? { estimate: 0, lower: 0, upper: 0 };
    // Of so few claims that most likely none comes the quantile lies under the mean.
    const upTo = { ...told, upper: Math.max(told.upper, told.estimate) };
    const month = { month: monthsLater(thisMonth, ahead), claims: total - before, upTo, isAtLeast: goesBeyondOldestAge };
    before = total;
    return month;
  });
  const begun = cohorts.filter(({ claimsByAge }) => claimsByAge.length > 0);
  const ladder = chainLadder(begun.map(({ claimsByAge }) => runningTotals(claimsByAge)));
  const untilOldest = forecastInterval(begun, oldestAge, CONFIDENCE);
  return {
    units: all,
    claims: watched.reduce((sum, { claimsByAge }) => sum + claimsByAge.reduce((part, of) => part + of, 0), 0),
    oldestAge,
    months,
    untilOldest: untilOldest && { byAge: untilOldest, byLadder: ladder && { estimate: ladder.totalReserve, standardError: ladder.totalStandardError } },
  };
}

/** Each month of shipping, the last being the present one, with its claims in each whole month since. */
export function cohortsByMonth(units: ReadonlyMap<Month, number>, claims: readonly { month: Month; filed: Month; claims: number }[], { from, to }: Period): readonly Cohort[] {
  const counts = sumBy(claims, ({ month, filed }) => `${month} ${filed}`, (line) => line.claims);
  return eachMonthOf({ from, to }).map((month) => ({
    units: units.get(month) ?? 0,
    claimsByAge: Array.from({ length: monthsBetween(month, to) }, (_, age) => counts.get(`${month} ${monthsLater(month, age)}`) ?? 0),
  }));
}

/**
 * What a claim costs in each currency, from those that have ended.
 *
 * @example 20 ended, of which 8 cost EUR 100.00: a mean of EUR 40.00
 */
export function costPerClaim(spreads: readonly CostSpread[], ended: number): readonly CostPerClaim[] {
  if (ended === 0) return [];
  return spreads
    .filter(({ paid }) => paid > 0)
    .map(({ currency, paid, totalMinor, squaredMinor }) => {
      // Money may be booked before the end: no fewer claims bear it than had it booked.
      const claims = Math.max(ended, paid);
      const meanMinor = totalMinor / claims;
      return { currency, ended: claims, paid, meanMinor, deviationMinor: Math.sqrt(Math.max(0, squaredMinor / claims - meanMinor ** 2) * (claims / Math.max(1, claims - 1))) };
    })
    .toSorted((a, b) => b.meanMinor - a.meanMinor);
}

/**
 * What so many claims will cost: the interval takes in how many come, how unlike their costs are, and how well the mean is
 * known, each side's parts squared and added.
 *
 * Source: G. Y. Zou and A. Donner, "Construction of confidence limits about effect measures", Statistics in Medicine 27
 * (2008) (from memory).
 *
 * @example 10 claims (6 to 15) of EUR 100 each, alike: EUR 1,000 (600 to 1,500)
 */
export function forecastCost({ estimate, lower, upper }: Interval, { meanMinor, deviationMinor, ended }: CostPerClaim): Interval {
  const cost = estimate * meanMinor;
  const unlike = normalDeviate(CONFIDENCE) * deviationMinor * Math.sqrt(estimate + estimate ** 2 / ended);
  return { estimate: cost, lower: Math.max(0, cost - Math.hypot(meanMinor * (estimate - lower), unlike)), upper: cost + Math.hypot(meanMinor * (upper - estimate), unlike) };
}

function runningTotals(values: readonly number[]): readonly number[] {
  let total = 0;
  return values.map((value) => {
    total += value;
    return total;
  });
}
