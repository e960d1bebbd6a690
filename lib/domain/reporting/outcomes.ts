import { ATTRIBUTIONS } from "../diagnosis/attributions";

/** How a claim stands in a report: what its verdict lays it to, not decided yet, or ended without a verdict. */
export const OUTCOMES = [...ATTRIBUTIONS, "undecided", "ended"] as const;
export type Outcome = (typeof OUTCOMES)[number];

export const OUTCOME_NAMES: Readonly<Record<Outcome, string>> = {
  fit: "fitting",
  kit: "kit",
  engine: "engine",
  unit: "unit",
  normal: "normal",
  transit: "carriage",
  elsewhere: "elsewhere",
  undecided: "not yet decided",
  ended: "ended without a verdict",
};
