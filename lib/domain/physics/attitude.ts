/** Limits of the outlet's turn from straight down, degrees (a turbocharger maker's pages). */
export const ROLL_GOOD_DEG = 15;
export const ROLL_BAD_DEG = 35;

/**
 * Slope of a stretch: fall over length along it, the sine of its angle below the horizontal.
 * Example: 30 degrees fall 1 in 2, so that 400 mm of it fall 200 mm.
 */
export function slopeOfAngle(radiansBelowHorizontal: number): number {
  return Math.sin(radiansBelowHorizontal);
}
