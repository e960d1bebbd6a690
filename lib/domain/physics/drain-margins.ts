import { inletHeadM } from "./drain-inlet";
import { type Lognormal, normal, type Normal } from "./estimate";
import { drainCapacityM3S, HALF_FULL, neededSlope, SMOOTH_ROUGHNESS_M } from "./gravity-drain";
import { type Margin, marginOf } from "./margin";
import { headOfOilM } from "./oil-head";
import { propagate } from "./propagate";

/** The oil that the unit sends down its drain. */
export interface OilSent {
  flowM3S: Lognormal;
  kinematicViscosityM2S: Lognormal;
  /** Liquid in what flows; the rest is foam's gas. */
  liquidShare: Lognormal;
}

/** Width of a drain: bore and fittings. */
export interface DrainWidth {
  boreM: Lognormal;
  elbows: number;
  /** Developed length that the elbows are spread over. */
  lengthM: Lognormal;
}

const DRAIN_SOURCE = "Darcy-Weisbach on the half-full line with Churchill's friction (1977), laminar flow exact; foam as a share of gas";

const lineOf = (boreM: number, elbows: number, lengthM: number) => ({ boreM, elbows, lengthM, depthRatio: HALF_FULL, roughnessM: SMOOTH_ROUGHNESS_M });
/** A share cannot exceed the whole, however wide its spread. */
const oilOf = (kinematicViscosityM2S: number, liquidShare: number) => ({ kinematicViscosityM2S, liquidShare: Math.min(1, liquidShare) });

/**
 * Width of the drain: the oil that its bore and fittings pass at a given slope, half full, against what the unit sends,
 * m3/s.
 *
 * Example: 8 mm at a slope of 0.35, with 15W-40 at 110 degC and 40 % foam, pass 0.3 l/min where 2.5 arrive.
 */
export function drainWidthMargin({ boreM, elbows, lengthM }: DrainWidth, slope: Lognormal, oil: OilSent): Margin {
  const capacity = propagate(
    (bore, length, fall, viscosity, share) => drainCapacityM3S(fall, lineOf(bore, elbows, length), oilOf(viscosity, share)),
    [boreM, lengthM, slope, oil.kinematicViscosityM2S, oil.liquidShare],
  );
  return marginOf(capacity, oil.flowM3S, "available", DRAIN_SOURCE);
}

/** Slope that the oil sent needs in a line, half full. */
function slopeNeeded({ boreM, elbows, lengthM }: DrainWidth, oil: OilSent): Lognormal {
  return propagate(
    (bore, length, flow, viscosity, share) => neededSlope(flow, lineOf(bore, elbows, length), oilOf(viscosity, share)),
    [boreM, lengthM, oil.flowM3S, oil.kinematicViscosityM2S, oil.liquidShare],
  );
}

/**
 * Slope of the drain at its worst stretch against what the oil sent needs in a line of this width. A level or rising
 * stretch has nothing to drive the oil.
 *
 * Example: 10 degrees, good to 2, are a slope of 0.174; a bore of 19 mm needs about 0.08 for 2.5 l/min of foaming oil.
 */
export function drainSlopeMargin(slope: Normal, width: DrainWidth, oil: OilSent): Margin {
  return marginOf(slope, slopeNeeded(width, oil), "available", DRAIN_SOURCE);
}

const BUDGET_SOURCE = `fall less crankcase pressure as a column of oil, head at the outlet opening and losses of the drain; ${DRAIN_SOURCE}`;

/**
 * Head budget of the drain, m of oil: the fall, less the crankcase pressure as a column of oil, against what outlet
 * opening and line take to carry the oil sent. Short of it the housing floods.
 *
 *     M = H - p_cc / (rho g) - h_in - h_loss(Q)
 *
 * Source: one balance of heads (hydrostatics and Darcy-Weisbach).
 * Example: a fall of 120 mm with 0.5 kPa in the crankcase has 60 mm left before any loss.
 */
export function headBudgetMargin(fallM: Normal, crankcasePa: Normal, width: DrainWidth, oil: OilSent): Margin {
  const left = normal(fallM.mean - headOfOilM(crankcasePa.mean), Math.hypot(fallM.spread, headOfOilM(crankcasePa.spread)));
  const loss = propagate(
    (bore, length, flow, viscosity, share) => {
      const carried = oilOf(viscosity, share);
      return neededSlope(flow, lineOf(bore, width.elbows, length), carried) * length + inletHeadM(flow / carried.liquidShare, bore);
    },
    [width.boreM, width.lengthM, oil.flowM3S, oil.kinematicViscosityM2S, oil.liquidShare],
  );
  return marginOf(left, loss, "available", BUDGET_SOURCE);
}
