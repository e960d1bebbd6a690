import { AIR_GAS_CONSTANT_J_KG_K, airDensityKgM3 } from "./air";

/** Heat capacity ratio of air as an exponent, (k - 1) / k. */
const ISENTROPIC_EXPONENT = 0.286;

/** What a four-stroke engine is and how it is run at its highest demand. */
export interface Engine {
  displacementM3: number;
  speedPerS: number;
  boostPa: number;
  volumetricEfficiency: number;
  compressorEfficiency: number;
  /** Share of the compressor's heating that the intercooler takes out again. */
  intercooling: number;
}

/** The air it breathes. */
export interface Ambient {
  pressurePa: number;
  temperatureK: number;
  /** Pull at the compressor inlet. */
  intakeDepressionPa: number;
}

/** Volume a four-stroke engine draws at its ports, m3/s: 4.95 l at 6000 rpm draw 14.85 m3/min. */
export function portVolumeFlowM3S(displacementM3: number, speedPerS: number, volumetricEfficiency: number): number {
  return displacementM3 * (speedPerS / 2) * volumetricEfficiency;
}

/** Ratio of the compressor: the pull at its inlet counts. Example: 151.7 kPa over 101.4 less 6.8 is 2.68. */
export function pressureRatio(boostPa: number, { pressurePa, intakeDepressionPa }: Ambient): number {
  return (pressurePa + boostPa) / (pressurePa - intakeDepressionPa);
}

/** Air behind the compressor, K. Example: 18.3 degC at a ratio of 2.675 and an efficiency of 0.65: 165 degC. */
export function compressorOutletK(inletK: number, ratio: number, efficiency: number, exponent = ISENTROPIC_EXPONENT): number {
  return inletK * (1 + (ratio ** exponent - 1) / efficiency);
}

/** Mass drawn at the ports, kg/s, from the charge's pressure and temperature. */
export function portMassFlowKgS(volumeFlowM3S: number, chargePressurePa: number, chargeTemperatureK: number): number {
  return (volumeFlowM3S * chargePressurePa) / (AIR_GAS_CONSTANT_J_KG_K * chargeTemperatureK);
}

/**
 * Air that an engine draws through its filter, m3/s at ambient conditions: boost packs more into the same cylinders, so
 * that the filter from before no longer does.
 *
 * Source: displacement times half the speed, ideal gas, isentropic compression with an efficiency, cooling in part.
 * Example: 2.0 l at 4000 rpm and a pressure ratio of 2.3 take about 450 m3/h, twice what they took without boost.
 */
export function intakeAirDemandM3S(engine: Engine, ambient: Ambient): number {
  const ratio = pressureRatio(engine.boostPa, ambient);
  const behind = compressorOutletK(ambient.temperatureK, ratio, engine.compressorEfficiency);
  const chargeK = behind - engine.intercooling * (behind - ambient.temperatureK);
  const volume = portVolumeFlowM3S(engine.displacementM3, engine.speedPerS, engine.volumetricEfficiency);
  return portMassFlowKgS(volume, ambient.pressurePa + engine.boostPa, chargeK) / airDensityKgM3(ambient.pressurePa, ambient.temperatureK);
}
