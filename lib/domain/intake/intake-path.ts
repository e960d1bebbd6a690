import { checkObservation } from "../diagnosis/check-observation";
import { editionForFuel } from "../diagnosis/edition-for-fuel";
import type { Edition } from "../diagnosis/knowledge";
import { nextChecks } from "../diagnosis/next-checks";
import type { Observation } from "../diagnosis/observation";
import type { NextCheck } from "../diagnosis/ranking";
import type { Stakes } from "../diagnosis/stakes";
import { answer, type IntakeAnswers, observerOf, type Screen, SCREENS } from "./answers";
import { findingsFromAnswers } from "./findings-from-answers";
import { applies, FINDINGS_ASKED, fuelTold, type IntakeState, NOTHING_KNOWN } from "./questions";
import { DONT_KNOW } from "./screens";

/** What a question is weighed by: the knowledge in force, and what is at stake. */
export interface Basis {
  edition: Edition;
  stakes: Stakes;
}

/** Always asked, first: who files, what was bought, where the oil is and how much. The last two are for safety too. */
const ALWAYS_FIRST: readonly Screen[] = ["who", "purchase", "order", "item", "serial", "kit", "vehicle", "oil", "amount"];
const ALWAYS_LAST: readonly Screen[] = ["fitting", "pictures", "contact"];
/** Asked only while the answer is worth it, the worthiest first. */
const WEIGHED: readonly Screen[] = SCREENS.filter((screen) => !ALWAYS_FIRST.includes(screen) && !ALWAYS_LAST.includes(screen));

/** So many of the weighed screens are asked at most: nobody on a phone beside a vehicle answers more. */
const MOST_WEIGHED = 7;
/** Below this, in bits on the three leading causes together, an answer would not move the ranking. */
const WORTH_ASKING_BITS = 0.05;

/** Field under which a weighed screen keeps when it was answered, so that the order stays whatever is answered later. */
const TURN = "turn";

/**
 * The way through an intake as far as it is known: the screens that were answered, in the order in which they were, then
 * those still worth asking, the worthiest first, and those that come last for everybody.
 *
 * A screen is worth asking while an answer to one of its findings is expected to save more than it costs to give, or to
 * tell at least 0.05 bits about the three leading causes, with all that has been answered. What has been answered stays,
 * and stays in its place.
 *
 * Example: oil on the turbine side: the run of the drain and what else was changed come early, the filter never.
 */
export function screensToAsk(state: IntakeState, basis: Basis): Screen[] {
  const always = (screens: readonly Screen[]) => screens.filter((screen) => applies(screen, state, basis.edition) === true);
  return [...always(ALWAYS_FIRST), ...answeredWeighed(state, basis.edition), ...worthAsking(state, basis), ...always(ALWAYS_LAST)];
}

/** The first screen not yet answered, or null when everything is: then it is reviewed and filed. */
export function firstOpenScreen(state: IntakeState, basis: Basis): Screen | null {
  return screensToAsk(state, basis).find((screen) => state.answers[screen] === undefined) ?? null;
}

/** Whether this screen may be shown and answered: it belongs to this intake, and what comes first is answered. */
export function mayShow(screen: Screen, state: IntakeState, basis: Basis): boolean {
  // One that was worth asking when it was put is not refused because another window has made it less so.
  if (WEIGHED.includes(screen)) return isBegun(state, basis.edition) && applies(screen, state, basis.edition) === true;
  const screens = screensToAsk(state, basis);
  const open = screens.find((one) => state.answers[one] === undefined);
  if (!screens.includes(screen)) return screen === "vehicle" && open === undefined;
  return open === undefined || screens.indexOf(screen) <= screens.indexOf(open);
}

/** The answered screens before this one, the first first. */
export function screensBefore(screen: Screen, state: IntakeState, basis: Basis): readonly Screen[] {
  const screens = screensToAsk(state, basis);
  return screens.slice(0, placeOf(screen, screens, state)).filter((before) => state.answers[before] !== undefined);
}

/** The screen after this one, or null when the review comes next. */
export function screenAfter(screen: Screen, state: IntakeState, basis: Basis): Screen | null {
  const screens = screensToAsk(state, basis);
  return screens.slice(placeOf(screen, screens, state)).find((after) => after !== screen) ?? null;
}

/** Where a screen stands on the way; one that is not on it, where the open ones begin or where the first asked would. */
function placeOf(screen: Screen, screens: readonly Screen[], { answers }: IntakeState): number {
  if (screens.includes(screen)) return screens.indexOf(screen);
  const later = screens.findIndex((one) => (WEIGHED.includes(screen) ? answers[one] === undefined : SCREENS.indexOf(one) > SCREENS.indexOf(screen)));
  return later < 0 ? screens.length : later;
}

/**
 * How many more questions come after this screen at most: those that may still turn out not to apply, or not to be worth
 * asking, are counted. Only what comes before the screen is taken as told, so that from screen to screen the number never
 * grows, not on a way gone back over either, nor where an order or a serial is not found.
 */
export function mostQuestionsAfter(screen: Screen, state: IntakeState, basis: Basis): number {
  if (ALWAYS_LAST.includes(screen)) return ALWAYS_LAST.length - 1 - ALWAYS_LAST.indexOf(screen);
  const inTurn = answeredWeighed(state, basis.edition);
  const weighedBefore = ALWAYS_FIRST.includes(screen) ? [] : inTurn.includes(screen) ? inTurn.slice(0, inTurn.indexOf(screen)) : inTurn;
  const firstBefore = ALWAYS_FIRST.includes(screen) ? ALWAYS_FIRST.slice(0, ALWAYS_FIRST.indexOf(screen)) : ALWAYS_FIRST;
  const told = toldBefore([...firstBefore, ...weighedBefore], state);
  const before = [...firstBefore, ...weighedBefore, screen];
  const open = (screens: readonly Screen[]) => screens.filter((one) => !before.includes(one) && applies(one, told, basis.edition) !== false);
  // The kit is picked where no order was found, the item where one of several parts was: never both.
  const first = open(ALWAYS_FIRST).filter((one, _, all) => one !== "kit" || !all.includes("item"));
  const weighedLeft = MOST_WEIGHED - weighedBefore.length - (WEIGHED.includes(screen) ? 1 : 0);
  return first.length + Math.min(Math.max(0, weighedLeft), open(WEIGHED).length) + ALWAYS_LAST.length;
}

/** What these screens have told, and what was bought once nothing more can come of looking for it. */
function toldBefore(screens: readonly Screen[], { answers, purchase }: IntakeState): IntakeState {
  return {
    answers: Object.fromEntries(screens.flatMap((screen) => (answers[screen] ? [[screen, answers[screen]]] : []))),
    purchase: screens.includes("kit") ? purchase : NOTHING_KNOWN,
  };
}

/** The answers of a screen with its place in the order; a weighed one that is answered again keeps its place. */
export function withTurn(screen: Screen, values: Readonly<Record<string, string>>, answers: IntakeAnswers): Readonly<Record<string, string>> {
  if (!WEIGHED.includes(screen)) return values;
  const turns = WEIGHED.map((other) => turnOf(other, answers) ?? 0);
  return { ...values, [TURN]: String(turnOf(screen, answers) ?? 1 + Math.max(...turns)) };
}

function turnOf(screen: Screen, answers: IntakeAnswers): number | null {
  const turn = Number(answer(answers, screen, TURN));
  return Number.isInteger(turn) ? turn : null;
}

/** What is asked first of everybody is answered. */
export function isBegun(state: IntakeState, edition: Edition): boolean {
  return ALWAYS_FIRST.every((screen) => applies(screen, state, edition) !== true || state.answers[screen] !== undefined);
}

/** In the order in which they were answered; those of a draft from before the order was kept come first, as listed. */
function answeredWeighed(state: IntakeState, edition: Edition): Screen[] {
  return WEIGHED.filter((screen) => state.answers[screen] !== undefined && applies(screen, state, edition) === true).sort(
    (a, b) => (turnOf(a, state.answers) ?? 0) - (turnOf(b, state.answers) ?? 0),
  );
}

function worthAsking(state: IntakeState, { edition, stakes }: Basis): Screen[] {
  const left = MOST_WEIGHED - answeredWeighed(state, edition).length;
  if (left <= 0 || !isBegun(state, edition)) return [];
  const observer = observerOf(state.answers) ?? "customer";
  const checks = nextChecks(observationsFrom(state, edition), editionForFuel(edition, fuelTold(state)), {
    observer,
    stakes,
    context: { kit: state.purchase.kitId, vehicle: state.purchase.vehicleId },
  }).filter(({ gain, price, information }) => gain > price || information >= WORTH_ASKING_BITS);
  return WEIGHED.filter((screen) => state.answers[screen] === undefined && applies(screen, state, edition) === true)
    .map((screen) => ({ screen, ...worthOf(checks.filter(({ finding }) => FINDINGS_ASKED[screen]?.includes(finding))) }))
    .filter(({ isWorthAsking }) => isWorthAsking)
    .sort((a, b) => b.net - a.net || b.bitsForPrice - a.bitsForPrice)
    .slice(0, left)
    .map(({ screen }) => screen);
}

/** What the findings of one screen are worth together: money saved, or else what they tell for what they cost. */
function worthOf(checks: readonly NextCheck[]): { isWorthAsking: boolean; net: number; bitsForPrice: number } {
  const sum = (read: (check: NextCheck) => number) => checks.reduce((total, check) => total + read(check), 0);
  return {
    isWorthAsking: checks.length > 0,
    net: Math.max(0, sum(({ gain, price }) => gain - price)),
    bitsForPrice: checks.length > 0 ? sum(({ information }) => information) / sum(({ price }) => price) : 0,
  };
}

/** What was found, as far as the edition can use it: what an earlier edition asked otherwise is left out. */
export function observationsFrom(state: IntakeState, edition: Edition): Observation[] {
  const observer = observerOf(state.answers) ?? "customer";
  return findingsFromAnswers(state, edition)
    .flatMap(({ code, answer: told, measured, spread }): Observation[] => {
      if (measured !== null) return [{ finding: code, observer, measured, ...(spread === undefined ? {} : { spread }) }];
      return told === null || told === DONT_KNOW ? [] : [{ finding: code, observer, answer: told }];
    })
    .filter((observation) => checkObservation(observation, edition).ok);
}
