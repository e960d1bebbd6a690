import { bestStep } from "./check-plan-step";
import type { ClaimContext } from "./experience";
import type { Edition, Observer } from "./knowledge";
import type { Observation } from "./observation";
import type { Stakes } from "./stakes";

/**
 * Value of looking: what the best next check, by whoever filed or by a technician, is expected to save of the cost of a
 * wrong decision, its price taken off; nothing where the claim is better decided at once, null where what was found
 * cannot happen. The queue works what is not pressing in this order: where a question still changes much, asking it
 * early saves most.
 *
 * Source: expected value of sample information (Raiffa and Schlaifer 1961, from memory), one step ahead, since a list
 * needs no plan. Example: oil in the turbine and nothing else known: asking for the run of the drain saves tens; with
 * the drain known to be level nothing more pays.
 */
export function valueOfLooking(observations: readonly Observation[], edition: Edition, { filedBy, stakes, context }: { filedBy: Observer; stakes: Stakes; context: ClaimContext }): number | null {
  const observers: readonly Observer[] = filedBy === "technician" ? ["technician"] : [filedBy, "technician"];
  const step = bestStep(observations, edition, { observers, stakes, context, except: new Set() }, "one step");
  return step && (step.do === "check" ? step.saves : 0);
}
