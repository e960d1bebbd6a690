import { AIR_GAS_CONSTANT_J_KG_K, airDensityKgM3 } from "./air";
import { darcyFriction } from "./pipe-friction";
import type { FullPipe } from "./pipe-loss";

/** Of crankcase gas at about 70 degC, Pa s (air; oil mist changes it little). */
export const GAS_DYNAMIC_VISCOSITY_PA_S = 2e-5;
/** Of a drawn hose, over its bore. */
export const HOSE_RELATIVE_ROUGHNESS = 1e-4;
/** Entrance, exit and a bend or two, in velocity heads. */
export const HOSE_FITTINGS = 1.5;

/** Gas in a hose: flow at the hose's own conditions. */
export interface HoseGas {
  temperatureK: number;
  outletPressurePa: number;
}

/** Mass flow per area squared times R T: what a gas loses in pressure squared per velocity head, Pa2. */
function squaredPressurePerHead(massFlowKgS: number, boreM: number, temperatureK: number): number {
  const flux = massFlowKgS / ((Math.PI * boreM ** 2) / 4);
  return flux ** 2 * AIR_GAS_CONSTANT_J_KG_K * temperatureK;
}

/** Heads lost along the pipe: its friction depends on the mass flow alone. */
function headsLost(massFlowKgS: number, { boreM, lengthM, roughnessM, fittings }: Omit<FullPipe, "flowM3S">): number {
  const reynolds = (4 * massFlowKgS) / (Math.PI * boreM * GAS_DYNAMIC_VISCOSITY_PA_S);
  return (darcyFriction(reynolds, roughnessM / boreM) * lengthM) / boreM + fittings;
}

const STEPS = 100;

/**
 * Solves `x = next(x)` by repeated substitution, to the last digits that matter.
 *
 * @throws where it does not settle: the line would choke
 */
function settled(start: number, next: (before: number) => number): number {
  let before = start;
  for (let step = 0; step < STEPS; step++) {
    const after = next(before);
    if (Math.abs(after - before) <= 1e-12 * after) return after;
    before = after;
  }
  throw new Error("a gas line needs less flow: it would choke");
}

/**
 * Pressure at the inlet of a gas line from the one at its outlet, isothermal and compressible, Pa.
 *
 *     p1^2 - p2^2 = G^2 R T (f L / D + K + 2 ln(p1 / p2)),   G = mass flow / area
 *
 * Source: isothermal flow of an ideal gas in a line of constant bore (Crane TP 410, read through the open `fluids`
 * documentation). Example: 200 l/min through 1.5 m of 8 mm hose at 70 degC hold back 13.5 kPa.
 */
export function isothermalInletPressurePa(massFlowKgS: number, pipe: Omit<FullPipe, "flowM3S">, { temperatureK, outletPressurePa }: HoseGas): number {
  const perHead = squaredPressurePerHead(massFlowKgS, pipe.boreM, temperatureK);
  const heads = headsLost(massFlowKgS, pipe);
  return settled(outletPressurePa, (inlet) => Math.sqrt(outletPressurePa ** 2 + perHead * (heads + 2 * Math.log(inlet / outletPressurePa))));
}

/**
 * Pressure that a vent hose holds back of a flow, which is taken as it leaves the hose, Pa.
 * Example: 100 l/min through 1.5 m of 8 mm hose at 70 degC: 3.9 kPa, nearly half a metre of oil.
 */
export function ventLossPa({ flowM3S, ...hose }: FullPipe, gas: HoseGas): number {
  const massFlowKgS = flowM3S * airDensityKgM3(gas.outletPressurePa, gas.temperatureK);
  return isothermalInletPressurePa(massFlowKgS, hose, gas) - gas.outletPressurePa;
}

/** The same from the other end, by which published cases hold it: pressure at the outlet of a gas line from the one at its inlet, Pa. */
export function isothermalOutletPressurePa(
  massFlowKgS: number,
  pipe: Omit<FullPipe, "flowM3S">,
  { temperatureK, inletPressurePa }: { temperatureK: number; inletPressurePa: number },
): number {
  const perHead = squaredPressurePerHead(massFlowKgS, pipe.boreM, temperatureK);
  const heads = headsLost(massFlowKgS, pipe);
  return settled(inletPressurePa, (outlet) => Math.sqrt(inletPressurePa ** 2 - perHead * (heads + 2 * Math.log(inletPressurePa / outlet))));
}
