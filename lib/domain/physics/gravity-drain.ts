import { circularSection } from "./circular-section";
import { laminarPartFullRatio } from "./laminar-part-full";
import { darcyFriction, reynoldsNumber } from "./pipe-friction";
import { GRAVITY_M_S2 } from "./standard-gravity";

/** A drain line: what its wall and its fittings take from the fall. */
export interface DrainLine {
  boreM: number;
  /** Depth of oil over bore. Sized half full, so that gas can travel up the same line. */
  depthRatio: number;
  roughnessM: number;
  /** Developed length that its elbows are spread over. */
  lengthM: number;
  elbows: number;
}

/** What runs through it: oil with a share of gas, which thins the column more than the drag. */
export interface DrainOil {
  kinematicViscosityM2S: number;
  /** Volume of liquid in the volume that flows: 1 without foam. */
  liquidShare: number;
}

/** A smooth hose or drawn tube. */
export const SMOOTH_ROUGHNESS_M = 1.5e-6;
export const HALF_FULL = 0.5;

/**
 * Loss factor of one tight elbow: 0.8 velocity heads where turbulent, and 500 / Re more where oil creeps.
 * Source: the form of the 2-K and 3-K methods; both figures from memory.
 */
const elbowLoss = (reynolds: number) => 0.8 + 500 / reynolds;

/** f Re of laminar flow in the part-full section, so that Churchill's formula meets the exact laminar flow. */
function laminarConstantOf(depthRatio: number): number {
  if (depthRatio === HALF_FULL || depthRatio === 1) return 64;
  const { areaM2, hydraulicDiameterM } = circularSection(1, depthRatio);
  return (256 * areaM2 * hydraulicDiameterM ** 2) / (Math.PI * laminarPartFullRatio(depthRatio));
}

/**
 * Slope that a drain needs for a flow of liquid oil: fall over length along the line.
 *
 *     S = (f / D_h + n K / L) V^2 / 2 g
 *
 * Foam carries its liquid at a larger volume, and its lighter column drives it less: the kinematic viscosity rises by
 * 1 / liquid share, so that a laminar capacity falls by the square of the share (an upper bound: foam is thicker still).
 *
 * Source: Darcy and Weisbach on the hydraulic diameter, Churchill's friction, exact in the laminar limit.
 * Example: 2.68 l/min at full bore of 12.7 mm and 14 mm2/s need a slope of 0.1.
 */
export function neededSlope(liquidFlowM3S: number, line: DrainLine, oil: DrainOil): number {
  const { areaM2, hydraulicDiameterM } = circularSection(line.boreM, line.depthRatio);
  const velocity = liquidFlowM3S / oil.liquidShare / areaM2;
  const reynolds = reynoldsNumber(velocity, hydraulicDiameterM, oil.kinematicViscosityM2S / oil.liquidShare);
  const friction = darcyFriction(reynolds, line.roughnessM / hydraulicDiameterM, laminarConstantOf(line.depthRatio));
  const lossPerMetre = friction / hydraulicDiameterM + (line.elbows * elbowLoss(reynolds)) / line.lengthM;
  return (lossPerMetre * velocity ** 2) / (2 * GRAVITY_M_S2);
}

/** How near the needed slope must come to the given one, as a natural logarithm. */
const CLOSE_ENOUGH = 1e-12;

/**
 * Capacity of a gravity drain: the liquid oil that runs off at a slope, m3/s. A level or rising stretch passes none.
 *
 * Source: `neededSlope` solved for the flow, by secants of log slope over log flow.
 * Example: half full, smooth, at 1 in 10 and 14.5 mm2/s a bore of 12.7 mm passes 1.3 l/min, one of 19 mm 6.5.
 */
export function drainCapacityM3S(slope: number, line: DrainLine, oil: DrainOil): number {
  if (slope <= 0) return 0;
  const logExcess = (logFlow: number) => Math.log(neededSlope(Math.exp(logFlow), line, oil) / slope);
  // From the laminar flow without fittings: there the slope is a power of the flow with exponent 1, at most about 2.5.
  let logFlow = Math.log((Math.PI * GRAVITY_M_S2 * slope * line.boreM ** 4 * laminarPartFullGuess(line) * oil.liquidShare ** 2) / (128 * oil.kinematicViscosityM2S));
  let excess = logExcess(logFlow);
  let exponent = 1.5;
  for (let step = 0; step < 60 && Math.abs(excess) > CLOSE_ENOUGH; step++) {
    const next = logFlow - excess / exponent;
    const nextExcess = logExcess(next);
    exponent = Math.min(3, Math.max(0.9, (nextExcess - excess) / (next - logFlow)));
    [logFlow, excess] = [next, nextExcess];
  }
  return Math.exp(logFlow);
}

/** Half of the full bore does for a first guess at any depth. */
const laminarPartFullGuess = ({ depthRatio }: DrainLine) => (depthRatio === 1 ? 1 : 0.5);
