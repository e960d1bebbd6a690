const RADIANS = Math.PI / 180;

/**
 * How far the long edge of a phone is tilted from level, in degrees; above 0 its upper end points upwards. It holds
 * however the phone is rolled about that edge.
 *
 * Source: W3C Device Orientation Event, turns in the order alpha, beta, gamma (from memory): "up" then has the part
 * sin(beta) along the phone's long edge. Example: beta 8 is 8 degrees up, and so is beta 172, with the phone on its face.
 */
export function tiltOfPhone(betaDegrees: number): number {
  return Math.asin(Math.sin(betaDegrees * RADIANS)) / RADIANS;
}

/**
 * How far a line falls, from a phone laid along it twice: with its upper end the way the line runs, then turned end for
 * end. What phone and case are off by is in both readings alike and drops out.
 *
 * Example: -7 and then 9 degrees: the line falls by 8, and the phone reads 1 degree too much.
 */
export function slopeFromTwoTilts(upperEndAhead: number, turnedRound: number): number {
  return (turnedRound - upperEndAhead) / 2;
}
