import { editionForFuel } from "../diagnosis/edition-for-fuel";
import type { Edition } from "../diagnosis/knowledge";
import type { StopEngine } from "../diagnosis/ranking";
import { stopEngineFor } from "../diagnosis/stop-engine";
import { observerOf } from "./answers";
import { findingsFromAnswers } from "./findings-from-answers";
import { fuelTold, type IntakeState } from "./questions";
import { DONT_KNOW } from "./screens";

/**
 * Why the engine must stand still, as far as the answers given tell, or null.
 *
 * Example: oil on the air side of a diesel stops it at once; told next that it is no more than a film, it may run again.
 */
export function stopFromAnswers(state: IntakeState, edition: Edition): StopEngine | null {
  const observer = observerOf(state.answers) ?? "customer";
  const observations = findingsFromAnswers(state, edition).flatMap(({ code, answer }) => (answer === null || answer === DONT_KNOW ? [] : [{ finding: code, observer, answer }]));
  return stopEngineFor(observations, editionForFuel(edition, fuelTold(state)));
}
