/** What the serial on a unit says about whether it is the one that was expected. */
export type SerialMatch = "matches" | "differs" | "nothing-to-compare";

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
