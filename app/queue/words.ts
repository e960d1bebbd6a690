import type { Remedy } from "@/lib/domain/claims/remedies";
import type { VerdictBasis } from "@/lib/domain/claims/verdict";
import type { Attribution, Origin } from "@/lib/domain/diagnosis/attributions";
import type { CheckCost, Observer } from "@/lib/domain/diagnosis/knowledge";

/** The desk's words for closed sets. */
export const ATTRIBUTION_WORDS: Readonly<Record<Attribution, string>> = {
  fit: "fitting",
  kit: "kit",
  engine: "engine",
  unit: "unit",
  normal: "normal",
  transit: "carriage",
  elsewhere: "elsewhere on the vehicle",
};

export const ORIGIN_WORDS: Readonly<Record<Origin, string>> = { fitter: "the way it was fitted", kit: "the kit\u2019s own parts or drawing", not_known: "not known" };

export const BASIS_WORDS: Readonly<Record<VerdictBasis, string>> = { customer_word: "the customer\u2019s word", photo: "photos", technician: "a technician\u2019s look", bench: "bench inspection" };

export const OBSERVER_WORDS: Readonly<Record<Observer, string>> = { customer: "the customer", technician: "a technician", bench: "the bench" };

export const COST_WORDS: Readonly<Record<CheckCost, string>> = { none: "free", low: "low cost", middle: "middling cost", high: "costly" };

export const REMEDY_WORDS: Readonly<Record<Remedy, string>> = {
  advice: "advice alone",
  part_sent: "send a part",
  repair: "repair the unit",
  replacement: "replace the unit",
  refund: "refund",
  goodwill: "goodwill",
  declined: "decline",
};
