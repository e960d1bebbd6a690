import { PAIR_UNIT_OF, type PairUnit } from "../claims/pair-units";
import { compareSerials } from "../claims/serials";
import { answer } from "./answers";
import { type IntakeState, mayBeOfPair } from "./questions";
import { DONT_KNOW, NO_PAIR, OTHER_SERIAL, PAIR_UNIT } from "./screens";

const PAIR_ANSWERS = ["large", "small", "both", NO_PAIR, DONT_KNOW] as const;
export type PairAnswer = (typeof PAIR_ANSWERS)[number];

/** What the customer said about which unit of a pair it is; nothing where it cannot be one, or nobody was asked. */
export function pairAnswer({ answers, purchase }: IntakeState): PairAnswer | undefined {
  return mayBeOfPair(purchase) ? PAIR_ANSWERS.find((known) => known === answer(answers, "oil", PAIR_UNIT)) : undefined;
}

/** Which unit of a pair a claim is about, with its serial and that of the pair's other unit; of both, the large one stands first. */
export interface PairTold {
  pairUnit: PairUnit | null;
  serial: string | null;
  otherSerial: string | null;
}

/**
 * Puts the serials of a pair where they belong: that of the unit that was bought, which the catalogue tells apart, and the
 * second one, which is asked for where it is both.
 *
 * Example: a large unit was bought, and the small one is complained of: its serial is not known, the other's is.
 *
 * @param serial of the unit that was bought, as it was sold or typed
 */
export function pairTold(state: IntakeState, serial: string | null): PairTold {
  const said = pairAnswer(state);
  if (said === undefined || said === NO_PAIR || said === DONT_KNOW) return { pairUnit: null, serial, otherSerial: null };
  const bought = PAIR_UNIT_OF[state.purchase.staging ?? "single"];
  if (bought === null || said === bought) return { pairUnit: said, serial, otherSerial: null };
  if (said !== "both") return { pairUnit: said, serial: null, otherSerial: serial };
  const typed = answer(state.answers, "oil", OTHER_SERIAL) ?? null;
  // The same one twice tells of one unit alone.
  const second = compareSerials(typed, serial) === "matches" ? null : typed;
  return bought === "large" ? { pairUnit: said, serial, otherSerial: second } : { pairUnit: said, serial: second, otherSerial: serial };
}
