import { type CustomerWeight, figuresFromRatios, type RatioRow } from "./figures-from-ratios";
import type { FindingBase, Provenance, SignFinding } from "./knowledge";

/** A sign as the table of ratios has it: the figures per observer are worked out from its rows. */
export type SignRow = Omit<FindingBase, "options"> & {
  options: readonly [present: string, absent: string];
  ratios: readonly [RatioRow, ...RatioRow[]];
  provenance: Provenance;
  customer?: CustomerWeight;
};

export function signOf({ options, ratios, provenance, customer, ...base }: SignRow): SignFinding {
  return {
    ...base,
    kind: "sign",
    options: [
      { value: "present", label: options[0] },
      { value: "absent", label: options[1] },
    ],
    ...figuresFromRatios(ratios, provenance, customer),
  };
}

export const JUDGED: Provenance = { kind: "judgement" };
export const TRADE: Provenance = { kind: "judgement", note: "direction common practice, size judgement" };
export const directionFrom = (source: string): Provenance => ({
  kind: "judgement",
  note: `direction published: ${source}; size judgement`,
});
