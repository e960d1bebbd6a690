import type { CauseCode } from "../diagnosis/knowledge";
import { poissonCusum } from "../statistics/poisson-cusum";
import { poissonCusumLimit, poissonCusumRunLength } from "../statistics/run-length";
import type { Month } from "./month";
import { expectationsOf } from "./signals-expected";
import { patternOf } from "./signals-pattern";
import { placesWithin, type SignalScope } from "./signals-scopes";
import { monthNumber, monthOfNumber, type ShippedAndClaimed, worldOf } from "./signals-world";

/** A rate raised by this factor is to be found soonest (judgement: less is seldom worth a change, more shows anyway). */
export const WATCHED_FOR_RATIO = 2;
/** How often a watched cell raises a false alarm: once in so many months (judgement). */
export const FALSE_ALARM_EVERY_MONTHS = 60;
/** Below so many claims a month a limit would be under one claim. */
const LEAST_EXPECTED = 0.05;

export interface Watch {
  /** Months of filing, the first watched one first. */
  months: readonly { month: Month; claims: number; expected: number; sum: number }[];
  /** The sum signals above it. */
  limit: number;
  /** Months until a signal, on average, when nothing is wrong, and when the rate has risen by the ratio watched for. */
  runLength: { usual: number; raised: number };
  signalled: Month | null;
  /** Month in which the rise likely began. */
  likelyStart: Month | null;
}

/**
 * Watches one cause in one part of the sales month by month of filing: claims beyond what is allowed add up, so that a
 * lasting rise shows sooner than in any single month. Each month is held against what its units, at their ages and in
 * that season, are to be expected to bring, as the rest goes and as the part itself went before it was watched; a month
 * that is not over, or not decided yet, expects accordingly less.
 *
 * @param from first month watched; what was filed before tells what is usual here
 * @returns null where nothing was shipped, or the cause has been seen nowhere else
 */
export function watchCell(given: ShippedAndClaimed, { scope, cause, from }: { scope: SignalScope; cause: CauseCode; from: Month }): Watch | null {
  const world = worldOf(given);
  const causePlace = world.causes.indexOf(cause);
  const places = placesWithin(world, scope);
  const atoms = places.flatMap((place) => world.atoms[place] ?? []);
  if (causePlace < 0 || atoms.length === 0) return null;
  const leftOut = world.causes.map((_, place) => new Set(place === causePlace ? places : []));
  const pattern = patternOf(world, leftOut);
  const byTheRest = expectationsOf(world, pattern, leftOut).of(places)(causePlace);
  const alone = atoms.reduce((sum, { units, month }) => sum + units * pattern.perUnit(causePlace, month), 0);
  if (!(alone > 0)) return null;

  const filed = (month: number) => atoms.reduce((sum, { claims }) => sum + claims.reduce((part, claim) => part + (claim.cause === causePlace && claim.filed === month ? claim.count : 0), 0), 0);
  const expectedIn = (month: number) => (byTheRest.expected / alone) * atoms.reduce((sum, { units, month: shipped }) => sum + units * pattern.perUnitIn(causePlace, shipped, month), 0);
  const firstWatched = monthNumber(from);
  const before = { claims: 0, expected: 0 };
  for (let month = world.firstMonth; month < firstWatched; month += 1) {
    before.claims += filed(month);
    before.expected += expectedIn(month);
  }
  // The rest weighs as much as it is sure; what was seen here before weighs by its claims.
  const sureness = 1 / byTheRest.relativeVariance;
  const usual = (before.claims + sureness) / (before.expected + sureness);
  const months = Array.from({ length: Math.max(0, world.lastMonth - firstWatched + 1) }, (_, place) => {
    const month = firstWatched + place;
    return { month: monthOfNumber(month), claims: filed(month), expected: usual * expectedIn(month) };
  });
  const expected = Math.max(LEAST_EXPECTED, months.reduce((sum, month) => sum + month.expected, 0) / Math.max(1, months.length));
  const limit = poissonCusumLimit({ expected, raisedRatio: WATCHED_FOR_RATIO, falseAlarmEveryMonths: FALSE_ALARM_EVERY_MONTHS });
  const { sums, firstSignal, likelyStart } = poissonCusum(
    months.map((month) => ({ count: month.claims, exposure: month.expected })),
    { usualRate: 1, raisedRate: WATCHED_FOR_RATIO, limit },
  );
  const runLength = (ratio: number) => poissonCusumRunLength({ expected, raisedRatio: WATCHED_FOR_RATIO, limit }, ratio);
  return {
    months: months.map((month, place) => ({ ...month, sum: sums[place] ?? 0 })),
    limit,
    runLength: { usual: runLength(1), raised: runLength(WATCHED_FOR_RATIO) },
    signalled: firstSignal === null ? null : monthOfNumber(firstWatched + firstSignal),
    likelyStart: likelyStart === null ? null : monthOfNumber(firstWatched + likelyStart),
  };
}
