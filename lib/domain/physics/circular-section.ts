/** The wetted part of a round line that does not run full. */
export interface CircularSection {
  areaM2: number;
  wettedPerimeterM: number;
  hydraulicRadiusM: number;
  hydraulicDiameterM: number;
}

/** Half the angle at the centre that the wetted wall spans: pi at full bore, pi / 2 half full. */
export function wettedHalfAngle(depthRatio: number): number {
  return Math.acos(1 - 2 * depthRatio);
}

/**
 * Section of a round line filled to a depth, by area, wetted perimeter and hydraulic radius.
 *
 * Source: geometry of the circular segment; the hydraulic radius is area over wetted perimeter.
 * Example: half full, the hydraulic radius is a quarter of the bore: 4 mm of 16 mm.
 *
 * @param depthRatio depth over bore, above 0 and up to 1
 */
export function circularSection(boreM: number, depthRatio: number): CircularSection {
  if (!(depthRatio > 0 && depthRatio <= 1)) throw new Error("circularSection needs a depth ratio above 0 and up to 1");
  const angle = 2 * wettedHalfAngle(depthRatio);
  const areaM2 = (boreM ** 2 * (angle - Math.sin(angle))) / 8;
  const wettedPerimeterM = (boreM * angle) / 2;
  const hydraulicRadiusM = areaM2 / wettedPerimeterM;
  return { areaM2, wettedPerimeterM, hydraulicRadiusM, hydraulicDiameterM: 4 * hydraulicRadiusM };
}
