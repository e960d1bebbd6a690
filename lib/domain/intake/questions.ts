import type { FindingCode } from "../diagnosis/knowledge";
import { answer, type IntakeAnswers, observerOf, oilPlace, type OilPlace, type Screen, SCREENS } from "./answers";

/** What the order, the serial or the picked kit has told already, so that it is not asked again. */
export interface KnownPurchase {
  kitId: string | null;
  vehicleId: string | null;
  fuel: "diesel" | "petrol" | null;
  staging: "single" | "low_pressure" | "high_pressure" | null;
  /** Shipments that match the order number and e-mail; with more than one, the customer says which. */
  matchingShipments: number;
}

export const NOTHING_KNOWN: KnownPurchase = { kitId: null, vehicleId: null, fuel: null, staging: null, matchingShipments: 0 };

export interface IntakeState {
  answers: IntakeAnswers;
  purchase: KnownPurchase;
}

/** Findings a screen asks for, beside what only it knows. Each tells apart causes that the others leave open. */
export const FINDINGS_ASKED: Partial<Record<Screen, readonly FindingCode[]>> = {
  amount: ["F04", "F06"],
  since: ["F07"],
  drain: ["F12"],
  "drain-size": ["F13", "F14"],
  vent: ["F24"],
  "vent-element": ["F25"],
  filter: ["F34"],
  "two-stage": ["F37"],
  engine: ["F22", "F33"],
  changed: ["F08", "F11"],
  "first-start": ["F09", "F10"],
};

/** Yes, no, or not known before earlier questions are answered. */
type Applies = boolean | undefined;

const allOf = (...sides: Applies[]): Applies => (sides.includes(false) ? false : sides.includes(undefined) ? undefined : true);

function is<T extends string>(value: T | undefined, ...wanted: T[]): Applies {
  return value === undefined ? undefined : wanted.includes(value);
}

const inside = (answers: IntakeAnswers): Applies => is<OilPlace>(oilPlace(answers), "turbine", "compressor", "both", "unseen");
const byTechnician = (answers: IntakeAnswers): Applies => is(answer(answers, "who", "who"), "technician");

/** The purchase is looked for but not found, and the customer goes on without it. */
function goesOnUnmatched(answers: IntakeAnswers): Applies {
  const by = answer(answers, "purchase", "by");
  if (by === undefined) return undefined;
  if (by === "kit") return true;
  const looked = by === "order" ? answers.order : answers.serial;
  return looked === undefined ? undefined : looked.unmatched === "yes";
}

function applies(screen: Screen, { answers, purchase }: IntakeState): Applies {
  const by = answer(answers, "purchase", "by");
  switch (screen) {
    case "order":
      return is(by, "order");
    case "item":
      return allOf(is(by, "order"), answers.order === undefined ? undefined : purchase.matchingShipments > 1);
    case "serial":
      // Before the choice is made only one of the ways is counted.
      return by === "serial";
    case "kit":
      return goesOnUnmatched(answers);
    case "vehicle":
      if (answers.vehicle) return true;
      return allOf(purchase.vehicleId === null, by === undefined ? undefined : true);
    case "drain":
    case "vent":
      return inside(answers);
    case "drain-size":
      return allOf(byTechnician(answers), is<OilPlace>(oilPlace(answers), "turbine", "both", "unseen"));
    case "vent-element":
      return allOf(inside(answers), is(answer(answers, "vent", "F24"), "open-air", "catch-can"));
    case "filter":
      return is<OilPlace>(oilPlace(answers), "compressor", "both", "unseen");
    case "two-stage":
      return allOf(
        is<OilPlace>(oilPlace(answers), "compressor", "both", "unseen"),
        purchase.staging === null,
      );
    case "engine":
      return is<OilPlace>(oilPlace(answers), "turbine", "both", "unseen");
    case "first-start":
      return byTechnician(answers);
    case "who":
    case "purchase":
    case "oil":
    case "amount":
    case "since":
    case "changed":
    case "fitting":
    case "pictures":
    case "contact":
      return true;
  }
}

/** The screens that are known to be asked, in order. */
export function screensToAsk(state: IntakeState): Screen[] {
  return SCREENS.filter((screen) => applies(screen, state) === true);
}

/** The first screen not yet answered, or null when everything is: then it is reviewed and filed. */
export function firstOpenScreen(state: IntakeState): Screen | null {
  return screensToAsk(state).find((screen) => state.answers[screen] === undefined) ?? null;
}

/** Whether this screen may be shown: it belongs to this intake and all before it is answered. */
export function mayShow(screen: Screen, state: IntakeState): boolean {
  const screens = screensToAsk(state);
  const open = firstOpenScreen(state);
  if (!screens.includes(screen)) return screen === "vehicle" && open === null;
  return open === null || screens.indexOf(screen) <= screens.indexOf(open);
}

/** The screen before this one, or null at the first. */
export function screenBefore(screen: Screen, state: IntakeState): Screen | null {
  return screensToAsk(state).filter((asked) => SCREENS.indexOf(asked) < SCREENS.indexOf(screen)).at(-1) ?? null;
}

/** The screen after this one, or null when the review comes next. */
export function screenAfter(screen: Screen, state: IntakeState): Screen | null {
  return screensToAsk(state).find((asked) => SCREENS.indexOf(asked) > SCREENS.indexOf(screen)) ?? null;
}

/** How many more questions come after this screen at most: those that may still turn out not to apply are counted. */
export function mostQuestionsAfter(screen: Screen, state: IntakeState): number {
  return SCREENS.slice(SCREENS.indexOf(screen) + 1).filter((later) => applies(later, state) !== false).length;
}

/** Only answers on screens that are still asked count: a changed earlier answer can leave later ones behind. */
export function standingAnswers(state: IntakeState): IntakeAnswers {
  const asked = new Set<Screen>(screensToAsk(state));
  return Object.fromEntries(Object.entries(state.answers).filter(([screen]) => asked.has(screen as Screen)));
}

/** What the engine burns: of the catalogue's vehicle, else as told, else not known. */
export function fuelTold({ answers, purchase }: IntakeState): string | undefined {
  return purchase.fuel ?? answer(answers, "vehicle", "fuel");
}

/** Whether a technician or an owner is asked: an owner only what shows with the engine cold and stopped. */
export function isAskedAsOwner(answers: IntakeAnswers): boolean {
  return observerOf(answers) !== "technician";
}
