/** Molar gas constant, J/(mol K). */
export const GAS_CONSTANT = 8.314462618;
/** Of dry air, kg/mol. */
export const AIR_MOLAR_MASS = 0.0289644;
export const AIR_GAS_CONSTANT_J_KG_K = GAS_CONSTANT / AIR_MOLAR_MASS;

export const SEA_LEVEL_PRESSURE_PA = 101_325;
const SEA_LEVEL_TEMPERATURE_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
const PRESSURE_EXPONENT = 5.25588;
const EARTH_RADIUS_M = 6_356_766;

/** Density of air as an ideal gas, kg/m3. Example: 101.325 kPa at 15 degC give 1.225. */
export function airDensityKgM3(pressurePa: number, temperatureK: number, molarMass = AIR_MOLAR_MASS): number {
  return (pressurePa * molarMass) / (GAS_CONSTANT * temperatureK);
}

/** Height in the standard's own measure, which takes gravity as constant: 2000 m are 1999.4 m. */
export function geopotentialM(geometricM: number): number {
  return (EARTH_RADIUS_M * geometricM) / (EARTH_RADIUS_M + geometricM);
}

/**
 * Standard atmosphere up to 11 km: pressure, temperature and density at a geopotential height. Thinner air takes more
 * volume for the same mass, so that a filter holds back more. No reading asks for the height: what a filter passes is
 * rated near sea level, and this is the sub-model that says how far off that is, held by reference cases.
 *
 * Source: ISO 2533, identical here to the US Standard Atmosphere 1976. Example: 2000 m have 79.5 kPa and 1.007 kg/m3.
 */
export function standardAtmosphere(heightM: number): { pressurePa: number; temperatureK: number; densityKgM3: number } {
  if (!(heightM >= -1000 && heightM <= 11_000)) throw new Error("standardAtmosphere needs a height from -1000 to 11000 m");
  const temperatureK = SEA_LEVEL_TEMPERATURE_K - LAPSE_K_PER_M * heightM;
  const pressurePa = SEA_LEVEL_PRESSURE_PA * (temperatureK / SEA_LEVEL_TEMPERATURE_K) ** PRESSURE_EXPONENT;
  return { pressurePa, temperatureK, densityKgM3: airDensityKgM3(pressurePa, temperatureK) };
}
