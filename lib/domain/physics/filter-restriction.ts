/**
 * Restriction of a filter and its ducts at another flow of air, Pa.
 *
 *     dp = dp0 (Q / Q0)^n / (rho / rho0)
 *
 * n is about 1 for the clean medium, 2 for housing and duct and 1.5 to 1.8 for the whole (from memory). For the same
 * mass of thinner air the volume flow rises as 1 / density, which the caller puts into the ratio of flows. No reading
 * scales a restriction yet; the sub-model is held by reference cases.
 *
 * Source: power law of flow resistance. Example: 2 kPa at 1.5 times the flow and n = 2 become 4.5 kPa.
 */
export function filterRestrictionPa(knownPa: number, flowRatio: number, exponent: number): number {
  return knownPa * flowRatio ** exponent;
}
