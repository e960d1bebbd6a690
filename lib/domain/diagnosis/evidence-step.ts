import { readingInWords } from "./physical-reading";
import type { EvidenceStep } from "./ranking";
import type { StandingObservation } from "./standing-observations";

/** An observation as a ranking keeps it and shows it. */
export const stepOf = (one: StandingObservation): EvidenceStep => ({
  finding: one.definition.code,
  answer: one.shown,
  observer: one.observer,
  ...(one.kind === "evidence" && one.reading ? { reading: readingInWords(one.reading) } : {}),
});
