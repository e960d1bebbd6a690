/** 60 degF, where the density of an oil is told. */
const BASE_TEMPERATURE_C = 15.556;

/**
 * Density of a lubricating oil at a temperature, kg/m3: what a column of it weighs. Nobody asks for an oil's
 * density: heads take the one of `oil-head.ts`, and this sub-model, held by reference cases, says how far off that is.
 *
 *     rho = rho60 exp(-a dT (1 + 0.8 a dT)),   a = 0.34878 / rho60 per degF
 *
 * Source: API MPMS 11.1 (ASTM D1250), group of lubricating oils, as shown on a public calculator page.
 * Example: 870 kg/m3 at 15 degC gives 817 at 100 degC.
 */
export function oilDensityKgM3(densityAt15C: number, temperatureC: number): number {
  const expansion = (0.34878 / densityAt15C) * (temperatureC - BASE_TEMPERATURE_C) * 1.8;
  return densityAt15C * Math.exp(-expansion * (1 + 0.8 * expansion));
}
