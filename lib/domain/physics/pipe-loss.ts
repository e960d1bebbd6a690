import { darcyFriction, reynoldsNumber } from "./pipe-friction";

/** A round line running full. */
export interface FullPipe {
  flowM3S: number;
  boreM: number;
  lengthM: number;
  roughnessM: number;
  /** Sum of the loss factors of its fittings, in velocity heads. */
  fittings: number;
}

export function meanVelocityMS(flowM3S: number, boreM: number): number {
  return flowM3S / ((Math.PI * boreM ** 2) / 4);
}

/**
 * Pressure lost along a full pipe and its fittings, Pa.
 *
 *     dp = (f L / D + K) rho V^2 / 2
 *
 * Source: Darcy and Weisbach. Example: 95.4 m3/h of a thick oil through 60 m of 203 mm pipe and a valve of K 4.76 lose
 * 6.4 kPa.
 */
export function pipeLossPa(pipe: FullPipe, densityKgM3: number, kinematicViscosityM2S: number): number {
  const velocity = meanVelocityMS(pipe.flowM3S, pipe.boreM);
  const friction = darcyFriction(reynoldsNumber(velocity, pipe.boreM, kinematicViscosityM2S), pipe.roughnessM / pipe.boreM);
  return ((friction * pipe.lengthM) / pipe.boreM + pipe.fittings) * densityKgM3 * velocity ** 2 * 0.5;
}
