/** Molar gas constant, J/(mol K). */
export const GAS_CONSTANT = 8.314462618;
/** Of dry air, kg/mol. */
export const AIR_MOLAR_MASS = 0.0289644;
export const AIR_GAS_CONSTANT_J_KG_K = GAS_CONSTANT / AIR_MOLAR_MASS;

export const SEA_LEVEL_PRESSURE_PA = 101_325;

/** Density of air as an ideal gas, kg/m3. Example: 101.325 kPa at 15 degC give 1.225. */
export function airDensityKgM3(pressurePa: number, temperatureK: number, molarMass = AIR_MOLAR_MASS): number {
  return (pressurePa * molarMass) / (GAS_CONSTANT * temperatureK);
}
