import type { Observer } from "../diagnosis/knowledge";

/** One question screen of the intake; also its address, `/intake/drain`. */
export const SCREENS = [
  "who",
  "purchase",
  "order",
  "item",
  "serial",
  "kit",
  "vehicle",
  "oil",
  "amount",
  "since",
  "drain",
  "drain-size",
  "vent",
  "vent-hose",
  "vent-element",
  "filter",
  "two-stage",
  "engine",
  "changed",
  "first-start",
  "fitting",
  "pictures",
  "contact",
] as const;
export type Screen = (typeof SCREENS)[number];

/**
 * What was typed on each screen, field by field, kept whole. A screen that was never continued from is not there. Under
 * `checks` stands what was found by free checks on screens not answered, see `told-checks.ts`.
 */
export type IntakeAnswers = Partial<Record<Screen | "checks", Readonly<Record<string, string>>>>;

const OIL_PLACES = ["turbine", "compressor", "both", "outside", "unseen"] as const;
export type OilPlace = (typeof OIL_PLACES)[number];

export function answer(answers: IntakeAnswers, screen: keyof IntakeAnswers, field: string): string | undefined {
  return answers[screen]?.[field] || undefined;
}

/** Who files, as the edition names observers, or null before the first answer. */
export function observerOf(answers: IntakeAnswers): Exclude<Observer, "bench"> | null {
  const who = answer(answers, "who", "who");
  return who === undefined ? null : who === "technician" ? "technician" : "customer";
}

/** Where the oil is, as answered. */
export function oilPlace(answers: IntakeAnswers): OilPlace | undefined {
  return OIL_PLACES.find((place) => place === answer(answers, "oil", "place"));
}
