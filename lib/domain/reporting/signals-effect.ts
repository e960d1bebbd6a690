import type { CauseCode } from "../diagnosis/knowledge";
import { type RateRatio, rateRatio } from "../statistics/rate-ratio";
import { CONFIDENCE } from "./figures";
import type { Month } from "./month";
import { monthsInService } from "./months-in-service";
import { patternOf } from "./signals-pattern";
import { placesWithin, type SignalScope } from "./signals-scopes";
import { monthNumber, monthOfNumber, type ShippedAndClaimed, worldOf } from "./signals-world";

/** What was shipped with the change in it. */
export type Changed = { shippedFrom: Month } | { kitRevisionId: string };

export interface Side {
  claims: number;
  unitsShipped: number;
  unitMonthsInService: number;
  /** Claims that the same units would bring by now at the usual rate: what both sides are divided by. */
  usual: number;
}

export type Effect =
  | {
      kind: "compared";
      before: Side;
      after: Side;
      /** How many times the rate before: below 1 the change helped. */
      ratio: RateRatio;
      /** Claims the changed units would have brought at the rate before, less those they brought; null where none came before. */
      avoided: number | null;
    }
  | { kind: "nothing-shipped-before" | "nothing-shipped-since" | "no-claims-on-either-side"; before: Side; after: Side };

/**
 * Whether a change worked: the rate of a cause in what was shipped with it against what was shipped without, exact for
 * small counts. Both sides are divided by what units of their age, in the seasons they have seen and with verdicts still to
 * come, usually bring by now; else what was shipped lately would always look cured.
 *
 * @example a drain line changed in May: 27 claims where 5.5 were usual before, 1 where 1.2 were since: 0.17 times, 0.01 to 0.73
 */
export function effectOf(given: ShippedAndClaimed, { scope, cause, changed }: { scope: SignalScope; cause: CauseCode; changed: Changed }): Effect {
  const world = worldOf(given);
  const causePlace = world.causes.indexOf(cause);
  // A revision that was shipped stands in for the one that had the fault.
  const inIts = "kitRevisionId" in changed ? placesWithin(world, { ...scope, kitRevisionId: changed.kitRevisionId, shippedFrom: null }) : [];
  const places = [...new Set([...placesWithin(world, scope), ...inIts])];
  const pattern = patternOf(
    world,
    world.causes.map((_, place) => new Set(place === causePlace ? places : [])),
  );
  const atoms = places.flatMap((place) => world.atoms[place] ?? []);
  const isChanged = ({ revision, month }: { revision: string; month: number }) => ("kitRevisionId" in changed ? revision === changed.kitRevisionId : month >= monthNumber(changed.shippedFrom));
  const sideOf = (isAfter: boolean): Side => {
    const own = atoms.filter((atom) => isChanged(atom) === isAfter);
    return {
      claims: own.reduce((sum, { claims }) => sum + claims.reduce((part, claim) => part + (claim.cause === causePlace ? claim.count : 0), 0), 0),
      unitsShipped: own.reduce((sum, { units }) => sum + units, 0),
      unitMonthsInService: own.reduce((sum, { units, month }) => sum + units * monthsInService(monthOfNumber(month), given.today), 0),
      usual: own.reduce((sum, { units, month }) => sum + units * pattern.perUnit(causePlace, month), 0),
    };
  };
  const before = sideOf(false);
  const after = sideOf(true);
  if (!(before.unitsShipped > 0)) return { kind: "nothing-shipped-before", before, after };
  if (!(after.unitsShipped > 0)) return { kind: "nothing-shipped-since", before, after };
  // Where no claim of any cause has come so early, time in service has to do.
  const exposureOf = (side: Side) => (before.usual > 0 && after.usual > 0 ? side.usual : side.unitMonthsInService);
  if (!(exposureOf(before) > 0 && exposureOf(after) > 0)) return { kind: "nothing-shipped-since", before, after };
  const ratio = rateRatio({ count: after.claims, exposure: exposureOf(after) }, { count: before.claims, exposure: exposureOf(before) }, CONFIDENCE);
  if (!ratio) return { kind: "no-claims-on-either-side", before, after };
  return {
    kind: "compared",
    before,
    after,
    ratio,
    avoided: before.claims > 0 ? (before.claims / exposureOf(before)) * exposureOf(after) - after.claims : null,
  };
}
