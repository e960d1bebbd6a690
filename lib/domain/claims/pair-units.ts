import type { Staging } from "../catalogue/entries";

/**
 * Which unit of a compound pair a complaint is about. A pair blows one into the other: the large, low-pressure unit
 * draws from the filter, the small, high-pressure one sits between it and the engine. One claim may be about both.
 */
export const PAIR_UNITS = ["large", "small", "both"] as const;
export type PairUnit = (typeof PAIR_UNITS)[number];

export const PAIR_UNIT_NAMES: Readonly<Record<PairUnit, string>> = {
  large: "the large, low-pressure unit",
  small: "the small, high-pressure unit",
  both: "both units of the pair",
};

/** Which unit of a pair a turbo model is; null of one that stands alone. */
export const PAIR_UNIT_OF: Readonly<Record<Staging, "large" | "small" | null>> = { low_pressure: "large", high_pressure: "small", single: null };

/** The serials of what a claim about a pair is about: of one unit its own, of both, the large one's first; none where one of them is not known. */
export function serialsOfPair({ pairUnit, serial, otherSerial }: { pairUnit: PairUnit | null; serial: string | null; otherSerial: string | null }): string[] {
  const needed = pairUnit === "both" ? [serial, otherSerial] : [serial];
  const known = needed.filter((one) => one !== null);
  return known.length === needed.length ? known : [];
}

/** What the second serial of a claim belongs to, where the first is that of the unit complained of; of both, the large one stands first. */
export const OTHER_UNIT_NAMES: Readonly<Record<PairUnit, string>> = {
  large: "the small, high-pressure unit",
  small: "the large, low-pressure unit",
  both: "the small, high-pressure unit",
};
