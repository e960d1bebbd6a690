import type { PairUnit } from "./pair-units";

/** What the serial on a unit says about whether it is the one that was expected; of a compound pair, the other unit is no stranger. */
export type SerialMatch = "matches" | "other-of-pair" | "differs" | "nothing-to-compare";

/** The serials that a claim leads one to expect, and those read on what came; of a compound pair there may be two of each. */
export interface ReturnSerials {
  serialExpected: string | null;
  otherSerial: string | null;
  serialSeen: string | null;
  otherSerialSeen: string | null;
}

/**
 * Compares what came with what a claim is about. A unit of the pair that came without the awaited one is said to be that;
 * which of the two was read first does not matter.
 *
 * @example of a claim about BK-1 whose pair has BK-2 too: seen BK-2 gives "other-of-pair", BK-2 and BK-1 give "matches"
 */
export function matchSerials({ serialExpected, otherSerial, serialSeen, otherSerialSeen }: ReturnSerials): SerialMatch {
  const cameFirst = compareSerials(serialSeen, serialExpected);
  if (compareSerials(serialSeen, otherSerial) !== "matches") return cameFirst;
  return compareSerials(otherSerialSeen, serialExpected) === "matches" ? "matches" : "other-of-pair";
}

/**
 * The serial of what a claim is about: of the unit as it was sold, or as the customer read it. Of a compound pair the unit
 * that was sold may be the other one.
 */
export function serialAwaited({ unit, serial, otherSerial }: { unit: { serial: string } | null; serial: string | null; otherSerial: string | null }): string | null {
  return unit === null || compareSerials(unit.serial, otherSerial) === "matches" ? serial : unit.serial;
}

/** Which unit of a pair is here, as far as the serials tell, and where they do not, the one complained of; null where it is no pair. */
export function pairUnitHere(unit: ReturnSerials & { pairUnit: PairUnit | null }): PairUnit | null {
  if (unit.pairUnit === null) return null;
  if (unit.otherSerialSeen !== null) return "both";
  const match = matchSerials(unit);
  if (match !== "matches" && match !== "other-of-pair") return unit.pairUnit;
  return (unit.pairUnit === "small") === (match === "matches") ? "small" : "large";
}

/**
 * Which unit of a pair the bench measures: the one that is here, and of two the one complained of. Where both are, it is the
 * one that was sold, whose model the catalogue knows.
 *
 * @param sold what was sold, by its model; null where that tells no unit of a pair
 */
export function pairUnitMeasured(unit: ReturnSerials & { pairUnit: PairUnit | null }, sold: "large" | "small" | null): PairUnit | null {
  const here = pairUnitHere(unit);
  const measured = here === "both" ? unit.pairUnit : here;
  return measured === "both" ? (sold ?? "both") : measured;
}

/** Name of the tick by which somebody says that a unit with another serial is the one of the claim all the same. */
export const SAME_UNIT = "isThisUnit";

/**
 * Compares the serial read at the bench with the one of the claim, by letters and figures alone, as serials are looked up.
 *
 * @example compareSerials("bk/1042-7", "BK10427") // "matches"
 */
export function compareSerials(seen: string | null, expected: string | null): SerialMatch {
  const bare = (serial: string | null) => (serial ?? "").replace(/[^\p{L}\p{N}]/gu, "").toUpperCase();
  if (bare(seen) === "" || bare(expected) === "") return "nothing-to-compare";
  return bare(seen) === bare(expected) ? "matches" : "differs";
}
