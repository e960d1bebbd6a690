import type { Observer } from "../diagnosis/knowledge";

/** How staff came to know a finding that they record, and as whose look it counts. */
export const FINDING_SOURCES = {
  technician: { label: "A technician looked, or measured it", observer: "technician" },
  photo: { label: "I looked at it on a photo", observer: "technician" },
  customer: { label: "The customer told me", observer: "customer" },
} as const satisfies Record<string, { label: string; observer: Observer }>;
export type FindingSource = keyof typeof FINDING_SOURCES;

/** The same as the end of a sentence, where it is not plain from the observer: "recorded a finding, seen on a photo". */
export const SOURCE_WORDS: Readonly<Record<FindingSource, string>> = { technician: "", photo: "seen on a photo", customer: "told to us" };
