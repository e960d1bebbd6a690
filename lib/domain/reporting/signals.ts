import type { CauseCode } from "../diagnosis/knowledge";
import { type DiscreteTest, discreteFalseDiscoveryRates } from "../statistics/discrete-false-discovery";
import { atLeastOfUncertain, largestChanceUpTo } from "../statistics/predictive-count";
import { STARTING_PRIOR, type ShrunkenRatio, shrunkenRatio } from "../statistics/two-gamma-shrinkage";
import type { Month } from "./month";
import { monthsInService } from "./months-in-service";
import { type ExpectedClaims, type Expectations, expectationsOf } from "./signals-expected";
import { patternOf } from "./signals-pattern";
import { named, type Scope, type SignalScope, scopesOf } from "./signals-scopes";
import { monthOfNumber, type ShippedAndClaimed, type World, worldOf } from "./signals-world";

/** Of the signals on a list at most this share is false, on average, however many cells were looked at (judgement). */
export const FALSE_DISCOVERY_RATE = 0.1;
/** Fewer claims are never a signal, however few were expected. */
export const FEWEST_CLAIMS_OF_A_SIGNAL = 3;
/** With a chance of 95 % the rate is at least so many times the expected: less is not worth a change (judgement). */
export const LEAST_RATIO = 1.5;

/** A cause that one part of the sales brings more often than all the rest leads to expect, beyond chance. */
export interface Signal {
  scope: SignalScope;
  cause: CauseCode;
  claims: number;
  expected: number;
  /** Times the expected, drawn towards 1 where little was seen, with the limits of a 90 % interval. */
  ratio: ShrunkenRatio;
  /** Expected share of false ones among this signal and all above it. */
  falseDiscoveryRate: number;
  /** Exposure; need not be whole, since units of unknown vehicle are shared out. */
  unitsShipped: number;
  unitMonthsInService: number;
  /** First month of shipping with units in it. */
  since: Month;
  /** Wider or narrower parts that stand out only because this one does. */
  alsoSeenIn: readonly SignalScope[];
}

export interface SignalsList {
  /** The surest comes first; of equally sure ones that whose lower limit stands highest. */
  signals: readonly Signal[];
  /** How many parts of the sales, each by each cause, were looked at. */
  lookedAt: number;
}

/**
 * Which part of the sales has a fault: each kit, revision, batch, and kit on a vehicle, by each cause, against what the
 * rest leads to expect of units of the same age in the same season. A signal must be beyond chance with all that was
 * looked at counted in, have at least three claims, and be clearly above the expected after shrinking.
 *
 * The list is made twice: what stood out the first time is left out of what everything is judged by the second time, so
 * that one fault neither hides another nor makes its neighbours look good.
 *
 * @example findSignals({ shipped, claims, today: "2026-11-25" }).signals[0] // kit KH-210 C on Drover 3.0, C01, 4.1 times
 */
export function findSignals(given: ShippedAndClaimed): SignalsList {
  const world = worldOf(given);
  const scopes = scopesOf(world);
  const noneLeftOut = world.causes.map(() => new Set<number>());
  const first = lookAt(world, scopes, noneLeftOut);
  const leftOut = world.causes.map((_, cause) => new Set(first.filter((found) => found.cause === cause).flatMap(({ scope }) => scope.atoms)));
  const found = first.length > 0 ? lookAt(world, scopes, leftOut) : first;
  return {
    lookedAt: scopes.length * world.causes.length,
    signals: found
      .map((one) => signalOf(one, world, given.today))
      .sort((a, b) => a.falseDiscoveryRate - b.falseDiscoveryRate || b.ratio.lower - a.ratio.lower || a.cause.localeCompare(b.cause)),
  };
}

interface Look extends ExpectedClaims {
  scope: Scope;
  cause: number;
  pValue: number;
}
interface Told extends Look {
  alsoSeenIn: readonly Scope[];
}
interface Found extends Told {
  falseDiscoveryRate: number;
}

function lookAt(world: World, scopes: readonly Scope[], leftOut: readonly ReadonlySet<number>[]): readonly Found[] {
  const expectations = expectationsOf(world, patternOf(world, leftOut), leftOut);
  const looks = scopes.flatMap((scope) => {
    const expectedOf = expectations.of(scope.atoms);
    return world.causes.map((_, cause) => {
      const { claims, expected, relativeVariance } = expectedOf(cause);
      return { scope, cause, claims, expected, relativeVariance, pValue: pValueOf({ claims, expected, relativeVariance }) };
    });
  });
  const tests = looks.map(testOf);
  const rates = discreteFalseDiscoveryRates(tests, FALSE_DISCOVERY_RATE);
  const standingOut = looks
    .filter((look, place) => (rates[place] ?? 1) <= FALSE_DISCOVERY_RATE && isClearlyAbove(look))
    .sort((a, b) => a.pValue - b.pValue);
  const told = toldOnce(standingOut, expectations);
  // One fault stands out in many parts at once. Counted by parts it would make room for false ones below it.
  const ratesOfTold = discreteFalseDiscoveryRates(tests, FALSE_DISCOVERY_RATE, told);
  return told
    .map((one, place): Found => ({ ...one, falseDiscoveryRate: ratesOfTold[place] ?? 1 }))
    .filter(({ falseDiscoveryRate }) => falseDiscoveryRate <= FALSE_DISCOVERY_RATE);
}

function pValueOf({ claims, expected, relativeVariance }: ExpectedClaims): number {
  if (claims < FEWEST_CLAIMS_OF_A_SIGNAL) return 1;
  return expected > 0 ? atLeastOfUncertain(claims, expected, relativeVariance) : 0;
}

function isClearlyAbove({ claims, expected }: ExpectedClaims): boolean {
  return claims >= FEWEST_CLAIMS_OF_A_SIGNAL && expected > 0 && shrunkenRatio(claims, expected, STARTING_PRIOR).lower >= LEAST_RATIO;
}

/** The p-values a look can come out with are those of whole numbers of claims, from the fewest on. */
function testOf({ pValue, expected, relativeVariance }: Look): DiscreteTest {
  if (!(expected > 0)) return { pValue: 1, attainableUpTo: () => 0 };
  return { pValue, attainableUpTo: largestChanceUpTo(FEWEST_CLAIMS_OF_A_SIGNAL, expected, relativeVariance) };
}

/** Above this chance, a part has nothing to tell beyond a narrower one within it (judgement). */
const NOTHING_OF_ITS_OWN = 0.05;

/**
 * Of parts that overlap, with the same cause, tells the one that explains the others: those whose claims outside it would
 * not stand out by themselves go with it. Where a narrower part explains a wider one just as well, the narrower is told.
 */
function toldOnce(strongestFirst: readonly Look[], expectations: Expectations): readonly Told[] {
  const line = strongestFirst.at(-1)?.pValue ?? 0;
  const places = new Map(strongestFirst.map(({ scope }) => [scope, new Set(scope.atoms)]));
  const isWithin = (inner: Scope, outer: Scope) => inner.atoms.every((place) => places.get(outer)?.has(place));
  const overlap = (one: Scope, other: Scope) => one.atoms.some((place) => places.get(other)?.has(place));
  /** Chance of as many claims in what a part has outside another. */
  const chanceOutside = (look: Look, other: Look) => {
    const { claims, expected, relativeVariance } = expectations.of(look.scope.atoms.filter((place) => !places.get(other.scope)?.has(place)))(look.cause);
    return expected > 0 ? atLeastOfUncertain(claims, expected, relativeVariance) : 1;
  };

  const told: Told[] = [];
  let left = strongestFirst;
  while (left[0]) {
    const strongest = left[0];
    const sameCause = left.filter(({ cause }) => cause === strongest.cause);
    const [sharpest] = sameCause
      .filter((other) => other !== strongest && isWithin(other.scope, strongest.scope) && chanceOutside(strongest, other) > NOTHING_OF_ITS_OWN)
      .sort((a, b) => b.claims / b.expected - a.claims / a.expected);
    const teller = sharpest ?? strongest;
    const explained = sameCause.filter((other) => other !== teller && overlap(other.scope, teller.scope) && (isWithin(other.scope, teller.scope) || chanceOutside(other, teller) > line));
    told.push({ ...teller, alsoSeenIn: explained.map(({ scope }) => scope) });
    left = left.filter((other) => other !== teller && !explained.includes(other));
  }
  return told;
}

function signalOf({ scope, cause, claims, expected, falseDiscoveryRate, alsoSeenIn }: Found, { atoms, causes }: World, today: string): Signal {
  const own = scope.atoms.flatMap((place) => atoms[place] ?? []);
  const withUnits = own.filter(({ units }) => units > 0);
  return {
    scope: named(scope),
    cause: causes[cause] as CauseCode,
    claims,
    expected,
    ratio: shrunkenRatio(claims, expected, STARTING_PRIOR),
    falseDiscoveryRate,
    unitsShipped: own.reduce((sum, { units }) => sum + units, 0),
    unitMonthsInService: own.reduce((sum, { units, month }) => sum + units * monthsInService(monthOfNumber(month), today), 0),
    since: monthOfNumber(withUnits.reduce((least, { month }) => Math.min(least, month), Number.POSITIVE_INFINITY)),
    alsoSeenIn: alsoSeenIn.map(named),
  };
}
