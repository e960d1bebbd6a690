import { SEA_LEVEL_PRESSURE_PA } from "./air";
import type { Lognormal } from "./estimate";
import { intakeAirDemandM3S } from "./intake-air";
import { type Margin, marginOf } from "./margin";
import { propagate } from "./propagate";
import { kelvinFromCelsius } from "./user-units";

/** What is known of an engine at rated speed, each with its spread. */
export interface EngineEstimate {
  displacementM3: Lognormal;
  speedPerS: Lognormal;
  boostPa: Lognormal;
}

/** Usual figures of an engine with boost (judgement). */
const USUAL = { volumetricEfficiency: 0.9, compressorEfficiency: 0.7, intercooling: 0.7 };
const DAY = { pressurePa: SEA_LEVEL_PRESSURE_PA, temperatureK: kelvinFromCelsius(20), intakeDepressionPa: 3000 };

/**
 * Rated flow of the air filter against the air that the engine draws at rated speed and full boost, m3/s.
 *
 * Example: a filter for 300 m3/h on a 2.0 l engine at 4000 rpm and 1.3 bar of boost is short: it draws about 440.
 */
export function filterMargin(ratedFlowM3S: Lognormal, engine: EngineEstimate): Margin {
  const demand = propagate(
    (displacementM3, speedPerS, boostPa) => intakeAirDemandM3S({ ...USUAL, displacementM3, speedPerS, boostPa }, DAY),
    [engine.displacementM3, engine.speedPerS, engine.boostPa],
  );
  return marginOf(ratedFlowM3S, demand, "available", "four-stroke air demand: displacement, half the speed, ideal gas, isentropic compression");
}
