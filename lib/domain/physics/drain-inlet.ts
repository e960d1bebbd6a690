import { GRAVITY_M_S2 } from "./standard-gravity";

/** Of a sharp-edged drowned opening (handbook figure). */
const DISCHARGE = 0.6;
/** Of a rim that works as a weir, SI (from memory). */
const WEIR = 1.66;

/**
 * Flow into a drowned outlet opening under a head of oil, m3/s.
 * Source: Torricelli with a coefficient of discharge. Example: 16 mm under 20 mm of oil pass 4.53 l/min.
 */
export function drownedInletFlowM3S(openingM: number, headM: number, discharge = DISCHARGE): number {
  return discharge * ((Math.PI * openingM ** 2) / 4) * Math.sqrt(2 * GRAVITY_M_S2 * headM);
}

/**
 * Head of oil that the outlet opening needs above it: its rim works as a weir while shallow, the hole as an orifice once
 * drowned, and whichever passes less rules. A gasket hole smaller than the housing's shows here first.
 *
 * Source: `Q = C_w (pi d) h^1.5` and `Q = C_d A sqrt(2 g h)`, each solved for h.
 * Example: 1.3 l/min through an opening of 10 mm need about 10 mm of oil.
 */
export function inletHeadM(flowM3S: number, openingM: number): number {
  const asWeir = (flowM3S / (WEIR * Math.PI * openingM)) ** (2 / 3);
  const asOrifice = (flowM3S / drownedInletFlowM3S(openingM, 1)) ** 2;
  return Math.max(asWeir, asOrifice);
}
