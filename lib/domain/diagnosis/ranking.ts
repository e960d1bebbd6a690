import type { Attribution } from "./attributions";
import type { ClaimContext } from "./experience";
import type { CauseCode, CautionCode, CheckCost, FindingCode, Observer, StopReason } from "./knowledge";
import type { OilPathPart } from "./oil-path";
import type { LedBelief } from "./stakes";
import type { PossibleOutcome } from "./value-of-information";

/** Stands for the complaint itself among the findings: somebody says that it is wet somewhere. */
export const COMPLAINT = "complaint";

/** Stands for what is known of the kit and vehicle, likewise. */
export const EXPERIENCE = "experience";

/** One piece of the evidence, in the fixed order of the findings. */
export interface EvidenceStep {
  /** A finding, `COMPLAINT` or `EXPERIENCE`. */
  finding: FindingCode;
  /** The answer or measured value as shown: "present", "intake", "12 mm". */
  answer: string;
  /** Null where nobody had to look. */
  observer: Observer | null;
  /** Of a measurement: what follows from it, its limit, and the probability of falling short, in words. */
  reading?: string;
}

/** What a step adds to the log-odds of one cause (natural log); 0 where it was considered and has no effect. */
export interface EvidenceWeight extends EvidenceStep {
  weight: number;
}

export interface RankedCause {
  code: CauseCode;
  attribution: Attribution;
  part: OilPathPart;
  /** Posterior probability that this cause is there. Causes may hold together: these need not sum to 1. */
  probability: number;
  /** Base figure before circumstances and evidence. */
  base: number;
  /** Sequential weights, one for each step of the ranking; log-odds(base) plus their sum is the posterior log-odds. */
  weights: readonly number[];
}

/** A check worth doing next, with what it is expected to bring. */
export interface NextCheck {
  finding: FindingCode;
  observer: Observer;
  /** Expected drop in the cost of a wrong decision, in the shop's currency units. */
  gain: number;
  /** What the answer is expected to tell about the three leading causes, in bits: orders checks without gain. */
  information: number;
  /** Minutes, parts and risk in the shop's currency units. */
  price: number;
  minutes: number;
  cost: CheckCost;
  cautions: readonly CautionCode[];
  /** How it can come out; of a measurement, "present" is a clear reading beyond its limit. */
  outcomes: readonly (PossibleOutcome<LedBelief> & { answer: string })[];
}

/** Why the engine must not be run until this is put right. */
export interface StopEngine {
  reason: StopReason;
  finding: FindingCode;
}

/**
 * The ranking of one claim: plain data, stored whole with the claim so that it can be shown again exactly.
 * `contradiction` means the evidence has probability zero under the edition: no figures then.
 */
export type Ranking =
  | {
      outcome: "ranked";
      edition: number;
      /** The kit and vehicle it was made for. */
      context: ClaimContext;
      /** The evidence, kept once for all causes. */
      steps: readonly EvidenceStep[];
      /** Observed, but another finding tells the same physical fact better: no effect on any cause. */
      setAside: readonly EvidenceStep[];
      /** Every cause, most probable first. */
      causes: readonly RankedCause[];
      /** Joint probability that at least one cause of the attribution is there. */
      attributions: Readonly<Record<Attribution, number>>;
      /** Probability that the unit is defective: a joint query, not a sum. */
      unitDefective: number;
      /** Probability that nothing is wrong (only normal causes, and they explain it). */
      nothingWrong: number;
      /** Probability that no known cause is there. */
      notExplained: number;
      /** Natural log of the evidence probability. */
      logEvidence: number;
      stopEngine: StopEngine | null;
    }
  | { outcome: "contradiction"; edition: number; context: ClaimContext; stopEngine: StopEngine | null };

/** A ranking with figures. */
export type Ranked = Extract<Ranking, { outcome: "ranked" }>;

/** The evidence for and against one cause of a ranking, in order, with what was considered without effect at the end. */
export function evidenceOf({ steps, setAside }: Ranked, { weights }: RankedCause): EvidenceWeight[] {
  return [...steps.map((step, place) => ({ ...step, weight: weights[place] ?? 0 })), ...setAside.map((step) => ({ ...step, weight: 0 }))];
}
