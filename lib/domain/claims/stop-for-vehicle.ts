import type { StopEngine } from "../diagnosis/ranking";

/**
 * Whether the reason to keep the engine off holds on this vehicle: a petrol engine does not run away on oil. A fuel
 * nobody knows counts as diesel.
 */
export function stopForVehicle(stop: StopEngine | null, fuel: string | null | undefined): StopEngine | null {
  return stop?.reason === "oil-in-intake-can-run-away" && fuel === "petrol" ? null : stop;
}
