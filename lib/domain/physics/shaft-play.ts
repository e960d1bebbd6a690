/**
 * Play at a wheel's nose from the clearance of the bearings, which the overhang magnifies like a lever.
 *
 *     nose = c (1 + 2 a / L)
 *
 * a overhang, L span of the bearings, c clearance on the diameter. Published limits at the nose (0.15 to 0.81 mm) exceed
 * those at the centre (0.08 to 0.17 mm) for this reason: a reading means nothing without its place.
 *
 * Source: similar triangles. Example: 0.1 mm, 40 mm overhang and 30 mm span give 0.367 mm at the nose.
 */
export function nosePlayM(clearanceM: number, overhangM: number, spanM: number): number {
  return clearanceM * (1 + (2 * overhangM) / spanM);
}
