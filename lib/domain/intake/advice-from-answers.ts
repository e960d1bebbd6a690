import { type AdvisedCheck, freeChecks } from "../diagnosis/advice";
import { editionForFuel } from "../diagnosis/edition-for-fuel";
import { observerOf } from "./answers";
import { type Basis, isBegun, observationsFrom } from "./intake-path";
import { fuelTold, type IntakeState } from "./questions";
import { checksTold } from "./told-checks";

/**
 * The free and safe checks that are worth making already, before anything is filed: none until it is known where the
 * oil is and how much. What is most likely is not told yet, so that it does not lead the answers still to come.
 *
 * Example: oil on the turbine side, a puddle: the run of the drain, the vent and the oil level.
 */
export function checksFromAnswers(state: IntakeState, { edition, stakes }: Basis): AdvisedCheck[] {
  if (!isBegun(state, edition)) return [];
  const told = checksTold(state.answers);
  const asked = { observer: observerOf(state.answers) ?? "customer", stakes, context: { kit: state.purchase.kitId, vehicle: state.purchase.vehicleId } };
  return freeChecks(observationsFrom(state, edition), editionForFuel(edition, fuelTold(state)), asked).filter(({ finding }) => !told.includes(finding));
}
