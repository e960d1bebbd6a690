import { chiSquarePValue } from "../statistics/chi-square-test";
import { normalDeviate } from "../statistics/normal";
import { binomialTest, type Rate, rateRatio } from "../statistics/rate-ratio";
import type { Counted } from "../statistics/u-chart";
import { CONFIDENCE } from "./figures";

export interface Change {
  /** Place of the first month of the new rate. */
  start: number;
  /** Places at which it may as well have begun, of nine in ten such changes. */
  earliest: number;
  latest: number;
  before: Rate;
  after: Rate;
  /** How many times the rate before; the upper limit null where there is none. */
  ratio: { estimate: number | null; lower: number; upper: number | null };
  /** Of seeing such a change somewhere by chance. */
  pValue: number;
}

/** A change has lasted so many months with exposure at least; what is shorter is a month out of the ordinary. */
const SHORTEST = 3;
/** Chance at which a change is named. Charts are looked at often, so one in a hundred (judgement). */
const SIGNIFICANT = 0.01;
const MOST_CHANGES = 3;
/** Above it the normal approximation is as good and far quicker. */
const EXACT_UP_TO = 1_000;

/**
 * Where a rate changed for good, and since when likely: the cumulative sum of claims beyond the mean turns at the change.
 * Each turning place is weighed by its likelihood ratio, the best is tested as one of all places, and either side is
 * searched again, so that a fault that came and was mended gives two.
 *
 * Source: E. S. Page, "A test for a change in a parameter occurring at an unknown point", Biometrika 42 (1955) (from
 * memory); given the sum of both sides the count of one is binomial, and the p-value is multiplied by the number of places.
 *
 * @param months in order; a size of 0 leaves a month out
 * @param widening how many times wider months spread than counts alone would
 * @example twelve months of 5 claims on 1,000 and six of 15: a change at place 12, three times the rate
 */
export function findChanges(months: readonly Counted[], widening: number): readonly Change[] {
  const spread = Math.max(1, widening);
  const found: Omit<Change, "ratio">[] = [];
  const stretches = [{ from: 0, to: months.length }];
  for (let stretch = stretches.shift(); stretch && found.length < MOST_CHANGES; stretch = stretches.shift()) {
    const change = strongestChange(months, stretch, spread);
    if (!change) continue;
    found.push(change);
    stretches.push({ from: stretch.from, to: change.start }, { from: change.start, to: stretch.to });
  }
  const sorted = found.toSorted((a, b) => a.start - b.start);
  // Once all are known, each is told by the stretches that it parts.
  return sorted.map((change, index) => {
    const before = rateOf(months.slice(sorted[index - 1]?.start ?? 0, change.start));
    const after = rateOf(months.slice(change.start, sorted[index + 1]?.start ?? months.length));
    return { ...change, before, after, ratio: ratioOf(after, before, spread) };
  });
}

/** Claims beyond what the mean leads to expect, added up month by month: level while nothing changes. */
export function cumulativeDepartures(months: readonly Counted[]): readonly number[] {
  const { count, exposure } = rateOf(months);
  let sum = 0;
  return months.map((month) => {
    if (month.size > 0) sum += month.count - (count * month.size) / exposure;
    return sum;
  });
}

function strongestChange(months: readonly Counted[], { from, to }: { from: number; to: number }, spread: number): Omit<Change, "ratio"> | null {
  const exposed = Array.from({ length: to - from }, (_, index) => from + index).filter((place) => (months[place]?.size ?? 0) > 0);
  const starts = exposed.slice(SHORTEST, Math.max(SHORTEST, exposed.length - SHORTEST + 1));
  const places = starts.map((start) => {
    const before = rateOf(months.slice(from, start));
    const after = rateOf(months.slice(start, to));
    return { start, before, after, likelihood: likelihoodRatio(before, after) / spread ** 2 };
  });
  const best = places.reduce<(typeof places)[number] | null>((most, place) => (place.likelihood > (most?.likelihood ?? 0) ? place : most), null);
  if (!best) return null;
  const { before, after, likelihood } = best;
  const total = before.count + after.count;
  const exact = total <= EXACT_UP_TO ? binomialTest(before.count, total, before.exposure / (before.exposure + after.exposure)) : 0;
  const pValue = Math.min(1, places.length * Math.max(exact, chiSquarePValue(likelihood, 1)));
  if (pValue > SIGNIFICANT) return null;
  const near = normalDeviate(CONFIDENCE) ** 2;
  const asLikely = places.filter((place) => likelihood - place.likelihood <= near);
  return { start: best.start, earliest: asLikely[0]?.start ?? best.start, latest: asLikely.at(-1)?.start ?? best.start, before, after, pValue };
}

/** Twice the logarithm of how much better two rates explain the counts than one. */
function likelihoodRatio(before: Rate, after: Rate): number {
  const count = before.count + after.count;
  const exposure = before.exposure + after.exposure;
  const part = ({ count: own, exposure: its }: Rate) => (own > 0 ? own * Math.log((own * exposure) / (count * its)) : 0);
  return Math.max(0, 2 * (part(before) + part(after)));
}

function ratioOf(after: Rate, before: Rate, spread: number): Change["ratio"] {
  const exact = rateRatio(after, before, CONFIDENCE);
  if (!exact) return { estimate: null, lower: 0, upper: null };
  const estimate = exact.ratio === "infinite" ? null : exact.ratio;
  const upper = exact.upper === "infinite" ? null : exact.upper;
  if (!estimate) return { estimate, lower: exact.lower, upper };
  // Where months spread more than counts do, so does the ratio.
  return { estimate, lower: estimate * (exact.lower / estimate) ** spread, upper: upper === null ? null : estimate * (upper / estimate) ** spread };
}

function rateOf(months: readonly Counted[]): Rate {
  const exposed = months.filter(({ size }) => size > 0);
  return { count: exposed.reduce((sum, { count }) => sum + count, 0), exposure: exposed.reduce((sum, { size }) => sum + size, 0) };
}
