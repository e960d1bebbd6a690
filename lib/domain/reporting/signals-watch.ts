import type { CauseCode } from "../diagnosis/knowledge";
import { lastingRise } from "../statistics/lasting-rise";
import type { Month } from "./month";
import { expectationsOf } from "./signals-expected";
import { patternOf } from "./signals-pattern";
import { placesWithin, type SignalScope } from "./signals-scopes";
import { monthNumber, monthOfNumber, type ShippedAndClaimed, worldOf } from "./signals-world";

/** A rate raised by this factor is to be found soonest (judgement: less is seldom worth a change, more shows anyway). */
export const WATCHED_FOR_RATIO = 2;
/** Of so many looks at a part of the sales with nothing wrong one is a false alarm, at most (judgement). */
export const FALSE_ALARM_IN_LOOKS = 60;

export interface Watch {
  /** Months of shipping, the first watched one first: what came by now of what was shipped in them, and its cumulative sum. */
  months: readonly { month: Month; claims: number; expected: number; sum: number }[];
  /** Chance of a last sum at least as high when nothing is wrong. */
  chance: number;
  /** The month of today if the last sum signals. */
  signalled: Month | null;
  /** First month of shipping that likely brings more, and all since. */
  likelyStart: Month | null;
}

/**
 * Watches one cause in one part of the sales: whether what was shipped since some month, whichever it is, brings more
 * claims. They add up by month of shipping, since a fault comes in with what is shipped: claims about older units, which
 * still come in for months, then neither hide it nor look like it. Each month of shipping is held against what its units
 * are to be expected to bring by now, at their age, in the seasons they have seen and with verdicts still to come; as the
 * rest goes, and as this part went before it was watched.
 *
 * @param from first month of shipping watched; what was shipped before tells what is usual here
 * @returns null where nothing was shipped, or the cause has not been seen yet
 * @example a rate of 1 % that has tripled in 200 units a month is found two months later in one of four, three later in two of three
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

  const broughtBy = (month: number) => {
    const own = atoms.filter((atom) => atom.month === month);
    return {
      claims: own.reduce((sum, { claims }) => sum + claims.reduce((part, claim) => part + (claim.cause === causePlace ? claim.count : 0), 0), 0),
      expected: (byTheRest.expected / alone) * own.reduce((sum, { units }) => sum + units * pattern.perUnit(causePlace, month), 0),
    };
  };
  const firstWatched = monthNumber(from);
  const before = { claims: 0, expected: 0 };
  for (let month = world.firstMonth; month < firstWatched; month += 1) {
    const { claims, expected } = broughtBy(month);
    before.claims += claims;
    before.expected += expected;
  }
  // The rest weighs as much as it is sure; what this part brought before weighs by its claims. So does what is still unsure.
  const sureness = 1 / byTheRest.relativeVariance;
  const weight = before.claims + sureness;
  const usual = weight / (before.expected + sureness);
  const months = Array.from({ length: Math.max(0, world.lastMonth - firstWatched + 1) }, (_, place) => {
    const { claims, expected } = broughtBy(firstWatched + place);
    return { month: monthOfNumber(firstWatched + place), claims, expected: usual * expected };
  });
  const { sums, chance, likelyStart } = lastingRise(
    months.map(({ claims, expected }) => ({ count: claims, expected })),
    { relativeVariance: 1 / weight, raisedRatio: WATCHED_FOR_RATIO },
  );
  const isSignal = chance <= 1 / FALSE_ALARM_IN_LOOKS;
  return {
    months: months.map((month, place) => ({ ...month, sum: sums[place] ?? 0 })),
    chance,
    signalled: isSignal ? monthOfNumber(world.lastMonth) : null,
    likelyStart: isSignal && likelyStart !== null ? monthOfNumber(firstWatched + likelyStart) : null,
  };
}
