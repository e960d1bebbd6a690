import type { Place, PlaceKind } from "@/lib/domain/claims/custody";
import { OTHER_UNIT_NAMES, PAIR_UNIT_NAMES, type PairUnit } from "@/lib/domain/claims/pair-units";
import { compareSerials, matchSerials, pairUnitHere, pairUnitMeasured, type ReturnSerials } from "@/lib/domain/claims/serials";
import type { PlayReading } from "@/lib/domain/claims/play-readings";

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** What is wrong with a unit that came in under another serial; who may not read free text is not told which. */
export function otherSerialInWords({ serialSeen, serialExpected }: { serialSeen: string | null; serialExpected: string | null }): string {
  return `The unit that came in has another serial${serialSeen ? `: ${serialSeen} instead of ${serialExpected}` : ""}`;
}

export const STANDING_WORDS: Readonly<Record<PlayReading["standing"], string>> = { within: "within the limit of this model", over: "over the limit of this model", under: "tighter than a sound one of this model" };

/**
 * Which unit of a compound pair is to come, so that nobody takes the other one for a mistake; null where it is no pair.
 *
 * @example pairInWords({ pairUnit: "large", otherSerial: "BK-7" }) // "The large, low-pressure unit; the small, high-pressure unit is BK-7"
 */
export function pairInWords({ pairUnit, otherSerial }: { pairUnit: PairUnit | null; otherSerial: string | null }): string | null {
  if (!pairUnit) return null;
  return `${capital(PAIR_UNIT_NAMES[pairUnit])}${otherSerial ? `; ${OTHER_UNIT_NAMES[pairUnit]} is ${otherSerial}` : ""}`;
}

/**
 * Which unit of a pair has come, as far as the serials tell: one return may hold both. Null where it is no pair, nothing was
 * read, or the awaited one has come, alone as it should.
 *
 * @example cameOfPairInWords of a claim about both, with the small one here: "The small, high-pressure unit has come; the large, low-pressure unit has not been seen yet"
 */
export function cameOfPairInWords(unit: ReturnSerials & { pairUnit: PairUnit | null }): string | null {
  const { pairUnit, serialSeen, otherSerialSeen, serialExpected, otherSerial } = unit;
  if (!pairUnit || (!serialSeen && !otherSerialSeen)) return null;
  const match = matchSerials(unit);
  if (otherSerialSeen) {
    const second = compareSerials(otherSerialSeen, match === "other-of-pair" ? serialExpected : otherSerial);
    if (second === "differs" && compareSerials(otherSerialSeen, serialExpected) !== "matches") return `Two units have come; the second has another serial than the pair: ${otherSerialSeen}`;
    return `Both units have come: ${serialSeen ?? "one whose serial cannot be read"} and ${otherSerialSeen}`;
  }
  if (match === "matches" && pairUnit !== "both") return null;
  const here = pairUnitHere(unit);
  if (here !== null && (match === "matches" || match === "other-of-pair"))
    return `${capital(PAIR_UNIT_NAMES[here])} has come; ${pairUnit === "both" ? `${OTHER_UNIT_NAMES[here]} has not been seen yet` : `the claim is about ${OTHER_UNIT_NAMES[here]}`}`;
  return pairUnit === "both" ? `One unit has come, ${serialSeen}; no serial tells which of the two it is` : null;
}

/** Of two units that have come, the one to measure: the sheet and its limits are of one. Null where one has come, or it is no pair. */
export function measuredOfPairInWords(unit: ReturnSerials & { pairUnit: PairUnit | null; soldAs: "large" | "small" | null }): string | null {
  if (pairUnitHere(unit) !== "both") return null;
  const measured = pairUnitMeasured(unit, unit.soldAs);
  const which = measured === null || measured === "both" ? "the one that leaked more, and say which it is" : `${PAIR_UNIT_NAMES[measured]}${unit.pairUnit === "both" ? ", which we sold" : ""}`;
  return `Two units have come, and this sheet is of one. Measure ${which}; what the other one shows goes into the note at the end.`;
}

/** What the bench does with a unit next, and where. */
export function nextAtBench({ claimId, bench }: { claimId: string; bench: { inspector: string | null; isInspected: boolean } }): { words: string; path: string } {
  const path = `/queue/${claimId}/bench-inspection`;
  if (bench.inspector) return { words: "Go on", path };
  return bench.isInspected ? { words: "Decide", path: `${path}/disposition` } : { words: "Inspect", path };
}

const AT: Readonly<Record<PlaceKind, string>> = { door: "waits at the door", bench: "is on the bench", shelf: "lies on a shelf", quarantine: "is in quarantine", supplier: "is at the supplier\u2019s", out: "has left the house" };
/** Whose name says nothing that the kind does not say. */
const PLAIN_NAMES = new Set(["door", "bench", "quarantine", "supplier", "out of the house"]);

/**
 * Where something is, with the name of the place where there may be several of its kind.
 *
 * @example whereInWords({ code: "SHELF-2", name: "Shelf 2", kind: "shelf" }) // "lies on Shelf 2"
 */
export function whereInWords(at: Place | null): string {
  if (!at) return "is here, and nobody wrote down where";
  if (at.kind === "shelf") return `lies on ${at.name}`;
  return PLAIN_NAMES.has(at.name.toLowerCase()) ? AT[at.kind] : `${AT[at.kind]}: ${at.name}`;
}

/** `25 November 2026` on the seller's calendar. */
export function dayIn(timeZone: string, at: Date): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone }).format(at);
}

/** `25 Nov, 09:30` on the seller's calendar and clock. */
export function momentIn(timeZone: string, at: Date): string {
  return new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit", timeZone }).format(at);
}

/** How a parcel is on its way, as far as anybody has told: `by Coriolis, number 7731`. */
export function wayInWords({ carrier, trackingNumber }: { carrier: string | null; trackingNumber: string | null }): string {
  return [...(carrier ? [`by ${carrier}`] : []), ...(trackingNumber ? [`number ${trackingNumber}`] : [])].join(", ");
}

const counted = (count: number, one: string, many: string) => (count === 0 ? [] : [{ count, words: count === 1 ? one : many }]);

/**
 * What the returns come to, as a finding: "2 units wait at the door, 1 parcel waits for a decision, 3 overdue".
 *
 * @param facts `stored`: here, but neither at the door nor on the bench; `coming`: on their way or still to be sent, overdue ones too
 */
export function returnsInWords(facts: { onBench: number; atDoor: number; stored: number; inDoubt: number; strays: number; overdue: number; coming: number }): string {
  const here = [
    ...counted(facts.onBench, "is on the bench", "are on the bench"),
    ...counted(facts.atDoor, "waits at the door", "wait at the door"),
    ...counted(facts.stored, "lies on a shelf", "lie on shelves"),
    ...counted(facts.inDoubt, "has another serial", "have another serial"),
  ].map(({ count, words }, index) => ({ count, words: index > 0 ? words : `${count === 1 ? "unit" : "units"} ${words}` }));
  const found = [...here, ...counted(facts.strays, "parcel waits for a decision", "parcels wait for a decision"), ...counted(facts.overdue, "overdue", "overdue")];
  if (found.length > 0) return found.map(({ count, words }) => `${count} ${words}`).join(", ");
  return facts.coming === 0 ? "No unit is here, and none is on its way" : `No unit is here; ${facts.coming === 1 ? "one is" : `${facts.coming} are`} on the way`;
}
