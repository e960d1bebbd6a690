/** Of a short drilled restrictor with hot oil. Below a Reynolds number of about 100 it falls. */
export const RESTRICTOR_DISCHARGE = 0.65;
/** Of oil at the feed, hot. */
export const FEED_OIL_DENSITY_KG_M3 = 830;

/**
 * Oil through a restrictor under a pressure difference, m3/s.
 *
 *     Q = C_d A sqrt(2 dp / rho)
 *
 * Source: the form of ISO 5167 without the approach factor (the standard itself needs pipes of 50 mm and more).
 * Example: 1.0 mm at 3.1 bar passes 0.84 l/min, all that a ball-bearing unit can get.
 */
export function restrictorFlowM3S(boreM: number, pressurePa: number, discharge = RESTRICTOR_DISCHARGE, densityKgM3 = FEED_OIL_DENSITY_KG_M3): number {
  return discharge * ((Math.PI * boreM ** 2) / 4) * Math.sqrt((2 * pressurePa) / densityKgM3);
}
