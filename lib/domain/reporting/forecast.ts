import gammaQuantile from "@stdlib/stats-base-dists-gamma-quantile";
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
  /** Whole months since the first shipment. */
  oldestAge: number;
  months: readonly MonthAhead[];
  /** Until every unit is as old as the oldest is now, by two ways; null where an age has nothing to grow from. */
  untilOldest: { byAge: Interval; byLadder: { estimate: number; standardError: number | null } | null } | null;
}

/** Fewer ended claims do not tell what a claim costs (judgement). */
export const FEWEST_ENDED = 10;

/**
 * Claims still to come of what is in the field, from the first of this month on: each month since shipping brings what it
 * brought in the units that have been through it. Nothing is assumed beyond the oldest age.
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
  const cohorts = cohortsByMonth(units, claims, { from: first, to: thisMonth });
  const oldestAge = monthsBetween(first, thisMonth);
  let before = 0;
  const months = Array.from({ length: horizonMonths }, (_, ahead): MonthAhead => {
    const { total, goesBeyondOldestAge } = forecastByAge(cohorts, ahead + 1);
    const upTo = forecastInterval(cohorts, ahead + 1, CONFIDENCE) ?? { estimate: 0, lower: 0, upper: 0 };
    const month = { month: monthsLater(thisMonth, ahead), claims: total - before, upTo, isAtLeast: goesBeyondOldestAge };
    before = total;
    return month;
  });
  const ladder = chainLadder(cohorts.filter(({ claimsByAge }) => claimsByAge.length > 0).map(({ claimsByAge }) => runningTotals(claimsByAge)));
  const byAge = forecastInterval(cohorts.filter(({ claimsByAge }) => claimsByAge.length > 0), oldestAge, CONFIDENCE);
  return {
    units: cohorts.reduce((sum, cohort) => sum + cohort.units, 0),
    claims: cohorts.reduce((sum, { claimsByAge }) => sum + claimsByAge.reduce((part, of) => part + of, 0), 0),
    oldestAge,
    months,
    untilOldest: byAge && { byAge, byLadder: ladder && { estimate: ladder.totalReserve, standardError: ladder.totalStandardError } },
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
 * What so many claims will cost: the spread takes in how many come, how unlike their costs are, and how well the mean is
 * known. The sum goes nearly as a gamma variable of that mean and variance.
 *
 * Source: mean and variance of a sum of a random number of terms (textbook, from memory).
 */
export function forecastCost(claims: Interval, { meanMinor, deviationMinor, ended }: CostPerClaim): Interval | null {
  const estimate = claims.estimate * meanMinor;
  if (!(estimate > 0)) return null;
  const deviationOfClaims = (claims.upper - claims.lower) / 2 / normalDeviate(CONFIDENCE);
  const variance = meanMinor ** 2 * deviationOfClaims ** 2 + claims.estimate * deviationMinor ** 2 + (claims.estimate * deviationMinor) ** 2 / ended;
  if (!(variance > 0)) return { estimate, lower: estimate, upper: estimate };
  const quantile = (part: number) => gammaQuantile(part, estimate ** 2 / variance, estimate / variance);
  return { estimate, lower: quantile((1 - CONFIDENCE) / 2), upper: quantile((1 + CONFIDENCE) / 2) };
}

function runningTotals(values: readonly number[]): readonly number[] {
  let total = 0;
  return values.map((value) => {
    total += value;
    return total;
  });
}
