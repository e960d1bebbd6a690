import type { Edition, StopAnswer } from "./knowledge";
import type { Observation } from "./observation";
import type { StopEngine } from "./ranking";
import { oneObservationEach } from "./standing-observations";

/**
 * Whether the engine must stand still: the first of the edition's stop rules that holds. Any observer's word stops
 * it; only the word of the same or a more authoritative observer lifts it.
 *
 * Example: oil on the compressor side, amount not known, gives "oil-in-intake-can-run-away" on F02.
 */
export function stopEngineFor(observations: readonly Observation[], edition: Edition): StopEngine | null {
  const chosen = oneObservationEach(observations);
  const isGiven = ({ finding, answer }: StopAnswer) => {
    const observation = chosen.get(finding);
    return observation !== undefined && "answer" in observation && observation.answer === answer;
  };
  for (const { reason, when, unless } of edition.stopRules) {
    if (when.every(isGiven) && !(unless && isGiven(unless))) return { reason, finding: when[0].finding };
  }
  return null;
}
