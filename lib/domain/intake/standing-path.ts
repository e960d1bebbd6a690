import { type IntakeAnswers, type Screen, SCREENS } from "./answers";
import { applies, type AskedFindings, NOTHING_KNOWN } from "./questions";

/**
 * The way through an intake without us at hand: every screen that belongs to it by what was answered, in the standing
 * order. Nothing is weighed and nothing looked up, so the kit is asked for beside an order or a serial that we may not
 * find later.
 *
 * Example: an owner who says that the vent is led to open air is asked no hose.
 */
export function standingPath(answers: IntakeAnswers, asked: AskedFindings): Screen[] {
  const state = { answers: { ...answers, ...unmatched("order", answers), ...unmatched("serial", answers) }, purchase: NOTHING_KNOWN };
  return SCREENS.filter((screen) => applies(screen, state, asked) === true);
}

const unmatched = (screen: "order" | "serial", answers: IntakeAnswers): IntakeAnswers => (answers[screen] ? { [screen]: { ...answers[screen], unmatched: "yes" } } : {});
