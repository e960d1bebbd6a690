import type { Edition } from "./knowledge";
import type { Observation } from "./observation";
import type { StopEngine } from "./ranking";

/**
 * Whether the engine must stand still: the first of the edition's stop rules that holds. Any observer's word is
 * enough to stop it; only the word of the most recent observation lifts it.
 *
 * Example: oil on the compressor side, amount not known, gives "oil-in-intake-can-run-away" on F02.
 */
export function stopEngineFor(observations: readonly Observation[], edition: Edition): StopEngine | null {
  const latest = new Map(observations.flatMap((one) => ("answer" in one ? [[one.finding, one.answer] as const] : [])));
  const isGiven = ({ finding, answer }: { finding: string; answer: string }) => latest.get(finding) === answer;
  for (const { reason, when, unless } of edition.stopRules) {
    if (when.every(isGiven) && !(unless && isGiven(unless))) return { reason, finding: when[0].finding };
  }
  return null;
}
