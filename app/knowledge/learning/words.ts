import { LARGER_IS_BETTER, LEAST_TO_LEARN_FROM, LEAST_TO_SCORE, type Measure, readDifference, type View, type ViewResult } from "@/lib/domain/learning/backtest";
import type { Confirmation } from "@/lib/domain/learning/training-example";
import type { NothingLearned } from "@/lib/operations/learn-edition";

export const CONFIRMED_BY: Readonly<Record<Confirmation, string>> = {
  bench: "Bench inspection",
  technician: "A technician’s look",
  cleared: "A check that put it right",
  photo: "Photos",
  customer_word: "The customer’s word",
};

export const MEASURE_NAMES: Readonly<Record<Measure, string>> = {
  logLoss: "Log loss, each cause there or not",
  brier: "Brier score, each cause there or not",
  multiClassLogLoss: "Log loss, which cause is the primary one",
  multiClassBrier: "Brier score over the causes (0 to 2)",
  unitBrier: "Brier score of “the unit is defective”",
  led: "Share led by the true cause",
  reciprocalRank: "Mean reciprocal rank of the true cause",
};

export const VIEW_NAMES: Readonly<Record<View, string>> = {
  "first contact": "With what the claim was filed with",
  "customer's word": "With all that the customer told",
  "all findings": "With all that was found before the verdict",
};

export const WHY_NOTHING: Readonly<Record<NothingLearned, string>> = {
  "too-few-verdicts": `There are too few verdicts yet: it takes ${LEAST_TO_LEARN_FROM} to learn from and ${LEAST_TO_SCORE} later ones to score on.`,
  "nothing-changed": "The verdicts say what the edition in force says already.",
  "changed-meanwhile": "Another edition came into force while the worker was at it. Ask again.",
  refused: "What came of it did not pass the checks of an edition; the log says more.",
};

/** @example 0.1347 as "0.135"; shares among them as they are */
export const score = (value: number) => value.toFixed(Math.abs(value) < 0.1 ? 4 : 3);

/** @example -0.0102 as "−0.0102", with its sign in any case */
export const signed = (value: number) => `${value < 0 ? "−" : "+"}${score(Math.abs(value))}`;

/** What the proposed edition does to forecasts of later verdicts, as the end of a sentence. */
export function outcomeOf({ differences }: ViewResult): string {
  const [loss, led] = [readDifference("logLoss", differences.logLoss), readDifference("led", differences.led)];
  if (loss === "better") return led === "worse" ? "forecasts later verdicts better, but leads with the true cause less often" : "forecasts later verdicts better";
  if (loss === "worse") return "forecasts later verdicts worse";
  return "forecasts later verdicts neither better nor worse, beyond chance";
}

export const direction = (measure: Measure) => (LARGER_IS_BETTER.has(measure) ? "more is better" : "less is better");
