import type { DispositionKind } from "./dispositions";
import type { ReturnState } from "./stages";
import type { ReturnEvent } from "./return-lifecycle";

/** What a place is for. A seller has several of a kind: shelves above all. */
export const PLACE_KINDS = ["door", "bench", "shelf", "quarantine", "supplier", "out"] as const;
export type PlaceKind = (typeof PLACE_KINDS)[number];

export const PLACE_KIND_NAMES: Readonly<Record<PlaceKind, string>> = {
  door: "where parcels come in",
  bench: "bench",
  shelf: "shelf",
  quarantine: "quarantine",
  supplier: "supplier",
  out: "out of the house",
};

/** In what state a parcel or a unit was handed over. */
export const PARCEL_CONDITIONS = ["sound", "packing_damaged", "leaking", "seal_broken"] as const;
export type ParcelCondition = (typeof PARCEL_CONDITIONS)[number];

export const PARCEL_CONDITION_NAMES: Readonly<Record<ParcelCondition, string>> = {
  sound: "sound",
  packing_damaged: "packing damaged",
  leaking: "oil leaks out",
  seal_broken: "opened, seal broken",
};

export interface Place {
  code: string;
  name: string;
  kind: PlaceKind;
}

/** One step of custody; `from` is null where it came from outside the house. */
export interface CustodyStep {
  number: number;
  at: Date;
  from: Place | null;
  to: Place;
}

/**
 * The steps with what nobody wrote down between them: a step that begins elsewhere than the last one ended.
 *
 * Source: the handling of test items, by analogy (ISO/IEC 17025:2017, 7.4, from memory).
 *
 * Example: door to bench, then shelf to out, has a gap before the second step, from the bench to the shelf.
 */
export function withGaps<T extends CustodyStep>(steps: readonly T[]): readonly (T & { gap: { from: Place; to: Place | null; since: Date } | null })[] {
  return steps.map((step, index) => {
    const before = steps[index - 1];
    const isGap = before !== undefined && before.to.code !== step.from?.code;
    return { ...step, gap: isGap ? { from: before.to, to: step.from, since: before.at } : null };
  });
}

/** What is to be handed over: the unit of a return, or a parcel that waits for a decision; `isClosed` once there is one. */
export type Custody = { is: "unit"; state: ReturnState; at: PlaceKind | null; disposition: DispositionKind | null } | { is: "stray"; isClosed: boolean; at: PlaceKind | null };

/** Where what was decided about a unit leads it. */
const WHERE_TO: Readonly<Record<DispositionKind, PlaceKind>> = {
  returned_to_customer: "out",
  restocked: "shelf",
  repaired: "shelf",
  scrapped: "out",
  held_as_evidence: "shelf",
  sent_to_supplier: "supplier",
};

/**
 * Where a thing may be brought from where it is, the usual next step first. What waits for a decision stays in the house:
 * a unit until the bench is done with it, a stray parcel until somebody says what becomes of it.
 *
 * Example: a unit that came in at the door goes to the bench next, else to a shelf or into quarantine.
 */
export function nextPlaces(custody: Custody): readonly PlaceKind[] {
  if (custody.is === "stray") return custody.isClosed ? ["out", "quarantine", "shelf"] : ["quarantine", "shelf"];
  switch (custody.state) {
    case "authorised":
    case "in_carriage":
    case "expired":
      return ["door"];
    case "received":
      return ["bench", "shelf", "quarantine"];
    case "on_the_bench":
      return ["shelf", "quarantine", "bench"];
    case "dispositioned": {
      const first = custody.disposition ? WHERE_TO[custody.disposition] : "shelf";
      return [first, ...(["shelf", "supplier", "out", "quarantine", "bench"] as const).filter((kind) => kind !== first)];
    }
  }
}

/** What a step means for the return, where it means anything: a unit from shelf to shelf stays received. */
export function eventOfStep(state: ReturnState, to: PlaceKind): ReturnEvent | null {
  switch (state) {
    case "authorised":
    case "in_carriage":
    case "expired":
      return "receive";
    case "received":
      return to === "bench" ? "put_on_bench" : null;
    case "on_the_bench":
      return to === "bench" ? null : "take_off_bench";
    case "dispositioned":
      return null;
  }
}
