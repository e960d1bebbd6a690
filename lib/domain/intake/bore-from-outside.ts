/**
 * The bore of a hose that nobody can look into, from its outside.
 *
 * Geometry; the walls and their spreads are judgement: rubber hoses for oil and vent gas with a layer of fabric have walls
 * of about 3 to 5 mm, a wall read at a cut end is good to about 0.3 mm.
 */
export const USUAL_WALL_MM = 4;
const USUAL_WALL_SPREAD_MM = 0.8;
const READ_WALL_SPREAD_MM = 0.3;
/** A ruler or calliper across the outside, or a strip of paper round it (judgement). */
const OUTSIDE_SPREAD_MM = 0.5;

/**
 * The outer width of a round hose from its way round, as a strip of paper shows it.
 *
 * Example: 66 mm round is 21.0 mm across.
 */
export function outerFromRound(roundMm: number): number {
  return roundMm / Math.PI;
}

/**
 * The bore from the outer width and the wall: one wall on each side.
 *
 * Example: 21 mm outside with walls of 4 mm is a bore of 13 mm.
 */
export function boreFromOutside(outerMm: number, wallMm: number): number {
  return outerMm - 2 * wallMm;
}

/** How a bore was come by, where not by measuring across it. */
export const BORE_WAYS = ["outside-usual-wall", "outside-known-wall"] as const;
export type BoreWay = (typeof BORE_WAYS)[number];

/**
 * One standard deviation of a bore found from the outside, in mm: the wall counts twice.
 *
 * Example: with the usual wall, the root of 0.5 squared and twice 0.8 squared: 1.68 mm; with the wall read, 0.78 mm.
 */
export function spreadOfBore(way: BoreWay): number {
  return Math.hypot(OUTSIDE_SPREAD_MM, 2 * (way === "outside-known-wall" ? READ_WALL_SPREAD_MM : USUAL_WALL_SPREAD_MM));
}
