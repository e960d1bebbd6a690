import { GRAVITY_M_S2 } from "./standard-gravity";

/** Of hot engine oil, for a head; at worst 5 % off: one of 870 at 15 degC has 810 at 110 degC (ASTM D1250). */
export const HOT_OIL_DENSITY_KG_M3 = 850;

/**
 * Crankcase pressure as a column of oil: how much of the drain's fall it takes.
 *
 *     h = p / (rho g)
 *
 * Source: hydrostatics. Example: 1 kPa holds up 120 mm of oil.
 */
export function headOfOilM(pressurePa: number, densityKgM3 = HOT_OIL_DENSITY_KG_M3): number {
  return pressurePa / (densityKgM3 * GRAVITY_M_S2);
}
