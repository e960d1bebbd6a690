import type { Effect } from "./signals-effect";

/** Claims that must have been due at the rate before: of fewer even none at all could be chance (exp(-3) is 5 %). */
export const FEWEST_DUE = 3;

export type EffectVerdict = "too-early" | "helped" | "worse" | "not-told" | "cannot-tell";

/**
 * What a comparison of before and after lets one say. Whether a change worked is said only when the interval leaves no
 * other reading, and not at all as long as hardly any claim would be due.
 *
 * @example effectVerdict(effect) // "helped": 1 claim since where 9.8 would have come at the rate before
 */
export function effectVerdict(effect: Effect): EffectVerdict {
  if (effect.kind === "nothing-shipped-since") return "too-early";
  if (effect.kind !== "compared" || effect.avoided === null) return "cannot-tell";
  const { upper, lower } = effect.ratio;
  // More claims than before need no waiting: they are there.
  if (lower > 1) return "worse";
  if (effect.after.claims + effect.avoided < FEWEST_DUE) return "too-early";
  return upper !== "infinite" && upper < 1 ? "helped" : "not-told";
}

/** The verdict as one plain sentence with its figures. */
export function effectInWords(effect: Effect): string {
  const { before, after } = effect;
  if (effect.kind !== "compared") return NOTHING_TO_COMPARE[effect.kind];
  if (effect.avoided === null) return `${claims(after.claims)} since, and none before on ${units(before.unitsShipped)} shipped: there is no rate before to compare with.`;
  const { ratio } = effect;
  const due = after.claims + effect.avoided;
  const interval = `${times(ratio.ratio)} times the rate before, 90 % interval ${times(ratio.lower)} to ${times(ratio.upper)}`;
  const since = `${claims(after.claims)} on ${units(after.unitsShipped)} shipped since, where ${due.toFixed(1)} would be due by now at the rate before`;
  switch (effectVerdict(effect)) {
    case "helped":
      return `It helped: ${since} (${interval}). So far about ${effect.avoided.toFixed(1)} claims did not come.`;
    case "worse":
      return `It did not help: ${since} (${interval}).`;
    case "not-told":
      return `Not told apart from chance yet: ${since} (${interval}).`;
    default:
      return `Too early to say: ${since}. From ${FEWEST_DUE} due on it can be told.`;
  }
}

const NOTHING_TO_COMPARE = {
  "nothing-shipped-since": "Too early to say: nothing that was shipped with it has been in service yet.",
  "nothing-shipped-before": "Nothing was shipped without it, so there is nothing to compare with.",
  "no-claims-on-either-side": "No claim with this cause before or since: there is nothing to compare.",
} as const;

const claims = (count: number) => (count === 0 ? "no claim" : count === 1 ? "1 claim" : `${count.toLocaleString("en-GB")} claims`);
const units = (count: number) => Math.round(count).toLocaleString("en-GB");
const times = (ratio: number | "infinite") => (ratio === "infinite" ? ratio : ratio < 9.95 ? ratio.toFixed(ratio < 0.995 ? 2 : 1) : String(Math.round(ratio)));
