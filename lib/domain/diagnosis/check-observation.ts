import type { Edition } from "./knowledge";
import type { Observation } from "./observation";
import { possibleRange } from "./possible-range";

export type ObservationRefusal =
  | "unknown-finding"
  | "not-for-this-observer"
  | "needs-an-answer"
  | "unknown-answer"
  | "needs-a-number"
  | "impossible-number";

export type ObservationCheck = { ok: true } | { ok: false; reason: ObservationRefusal };

/**
 * Check of one observation against an edition, before it is taken in: known finding, right kind of answer, an
 * observer who may observe it, a number within what is possible. What is unusual is asked about where it is typed.
 *
 * Example: the bore of the drain given as "present" is refused with "needs-a-number".
 */
export function checkObservation(observation: Observation, edition: Edition): ObservationCheck {
  const definition = edition.findings.find(({ code }) => code === observation.finding);
  if (!definition) return { ok: false, reason: "unknown-finding" };
  if (!definition.observers.includes(observation.observer)) return { ok: false, reason: "not-for-this-observer" };
  if (definition.kind === "measurement") {
    if (!("measured" in observation) || !Number.isFinite(observation.measured)) return { ok: false, reason: "needs-a-number" };
    const { min, max } = possibleRange(definition.plausible);
    if (observation.measured < min || observation.measured > max) return { ok: false, reason: "impossible-number" };
    return { ok: true };
  }
  if (!("answer" in observation)) return { ok: false, reason: "needs-an-answer" };
  if (!definition.options.some(({ value }) => value === observation.answer)) return { ok: false, reason: "unknown-answer" };
  return { ok: true };
}
