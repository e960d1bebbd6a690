import type { StopEngine } from "../diagnosis/ranking";
import { answer, type IntakeAnswers } from "../intake/answers";

/** What a claim's engine burns: of the catalogue's vehicle, else as the customer told, else not known. */
export function fuelOf({ vehicle, answers }: { vehicle: { fuel: string } | null; answers: IntakeAnswers }): string | undefined {
  return vehicle?.fuel ?? answer(answers, "vehicle", "fuel");
}

/**
 * Whether the reason to keep the engine off holds on this vehicle: a petrol engine does not run away on oil. A fuel
 * nobody knows counts as diesel.
 */
export function stopForVehicle(stop: StopEngine | null, fuel: string | null | undefined): StopEngine | null {
  return stop?.reason === "oil-in-intake-can-run-away" && fuel === "petrol" ? null : stop;
}
