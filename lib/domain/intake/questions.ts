import type { Staging } from "../catalogue/entries";
import type { Edition, FindingCode, FindingDefinition } from "../diagnosis/knowledge";
import { answer, type IntakeAnswers, observerOf, type Screen, SCREENS } from "./answers";

/** What the order, the serial or the picked kit has told already, so that it is not asked again. */
export interface KnownPurchase {
  kitId: string | null;
  vehicleId: string | null;
  fuel: "diesel" | "petrol" | null;
  staging: Staging | null;
  /** Kits for one unit of a compound pair are sold for the vehicle. */
  vehicleTakesPairs: boolean;
  /** Shipments that match the order number and e-mail; with more than one, the customer says which. */
  matchingShipments: number;
}

export const NOTHING_KNOWN: KnownPurchase = { kitId: null, vehicleId: null, fuel: null, staging: null, vehicleTakesPairs: false, matchingShipments: 0 };

export interface IntakeState {
  answers: IntakeAnswers;
  purchase: KnownPurchase;
}

/** Whether it may be one of a compound pair, so that the customer says which: by the kit's unit, or by the vehicle where that is not known. */
export function mayBeOfPair({ staging, vehicleTakesPairs }: KnownPurchase): boolean {
  return staging === null ? vehicleTakesPairs : staging !== "single";
}

/** Findings a screen asks for, beside what only it knows. Each tells apart causes that the others leave open. */
export const FINDINGS_ASKED: Partial<Record<Screen, readonly FindingCode[]>> = {
  amount: ["F04", "F06"],
  since: ["F07"],
  drain: ["F12"],
  "drain-size": ["F13", "F53", "F14", "F52", "F54"],
  vent: ["F24"],
  "vent-hose": ["F26", "F55"],
  "vent-element": ["F25"],
  filter: ["F34"],
  "two-stage": ["F37"],
  engine: ["F22", "F33"],
  changed: ["F08", "F11"],
  "first-start": ["F09", "F10"],
};

/** What of an edition decides which screens there are. */
export interface AskedFindings {
  findings: readonly Pick<FindingDefinition, "code" | "askedWhen">[];
}

/** Yes, no, or not known before earlier questions are answered. */
type Applies = boolean | undefined;

const allOf = (...sides: Applies[]): Applies => (sides.includes(false) ? false : sides.includes(undefined) ? undefined : true);

function is<T extends string>(value: T | undefined, ...wanted: T[]): Applies {
  return value === undefined ? undefined : wanted.includes(value);
}

const byTechnician = (answers: IntakeAnswers): Applies => is(answer(answers, "who", "who"), "technician");

function ledThroughHose(answers: IntakeAnswers): Applies {
  const led = answer(answers, "vent", "F24");
  return led === undefined ? undefined : !["open-air", "capped"].includes(led);
}

/** The purchase is looked for but not found, and the customer goes on without it. */
function goesOnUnmatched(answers: IntakeAnswers): Applies {
  const by = answer(answers, "purchase", "by");
  if (by === undefined) return undefined;
  if (by === "kit") return true;
  const looked = by === "order" ? answers.order : answers.serial;
  return looked === undefined ? undefined : looked.unmatched === "yes";
}

/** Whether the edition has a finding of this screen, and its condition is met where it names one. */
function worded(screen: Screen, answers: IntakeAnswers, edition: AskedFindings): Applies {
  const sides = (FINDINGS_ASKED[screen] ?? []).flatMap((code): Applies[] => {
    const finding = edition.findings.find((known) => known.code === code);
    return finding ? [conditionOf(finding, answers)] : [];
  });
  return sides.includes(true) ? true : sides.includes(undefined) ? undefined : false;
}

/** Whether a question's condition is met; not known before the question it hangs on is answered. */
function conditionOf({ askedWhen }: Pick<FindingDefinition, "askedWhen">, answers: IntakeAnswers): Applies {
  if (!askedWhen) return true;
  const screen = SCREENS.find((one) => FINDINGS_ASKED[one]?.includes(askedWhen.finding));
  return screen !== undefined && is(answer(answers, screen, askedWhen.finding), ...askedWhen.answers);
}

/**
 * Whether a screen belongs to this intake by what was answered: not whether it is still worth asking, see
 * `intake-path.ts`.
 */
export function applies(screen: Screen, { answers, purchase }: IntakeState, edition: AskedFindings): Applies {
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
    case "two-stage":
      return allOf(purchase.staging === null && !purchase.vehicleTakesPairs, worded(screen, answers, edition));
    case "vent-hose":
      // A vent that is open or capped has no hose to measure.
      return allOf(byTechnician(answers), ledThroughHose(answers), worded(screen, answers, edition));
    case "drain-size":
    case "first-start":
      return allOf(byTechnician(answers), worded(screen, answers, edition));
    case "amount":
    case "since":
    case "drain":
    case "vent":
    case "vent-element":
    case "filter":
    case "engine":
    case "changed":
      return worded(screen, answers, edition);
    case "who":
    case "purchase":
    case "oil":
    case "fitting":
    case "pictures":
    case "contact":
      return true;
  }
}

/** Only answers on screens that still apply count: a changed earlier answer can leave later ones behind. */
export function standingAnswers(state: IntakeState, edition: Edition): IntakeAnswers {
  return Object.fromEntries(Object.entries(state.answers).filter(([screen]) => screen === "checks" || applies(screen as Screen, state, edition) === true));
}

/** What the engine burns: of the catalogue's vehicle, else as told, else not known. */
export function fuelTold({ answers, purchase }: IntakeState): string | undefined {
  return purchase.fuel ?? answer(answers, "vehicle", "fuel");
}

/** Whether a technician or an owner is asked: an owner only what shows with the engine cold and stopped. */
export function isAskedAsOwner(answers: IntakeAnswers): boolean {
  return observerOf(answers) !== "technician";
}
