import gammaCdf from "@stdlib/stats-base-dists-gamma-cdf";

/**
 * Chance of a chi-square at least this large where nothing but chance is at work: the p-value of a sum of squared
 * deviations. A chi-square variable is Gamma(degrees / 2, rate 1/2). Below about 1e-15 it is 0.
 *
 * @example chiSquarePValue(8.339, 4) // 0.0799...
 * @throws when an argument is out of its range
 */
export function chiSquarePValue(chiSquare: number, degreesOfFreedom: number): number {
  if (!(chiSquare >= 0)) throw new Error("chiSquarePValue needs a chi-square from 0");
  if (!(degreesOfFreedom >= 1)) throw new Error("chiSquarePValue needs at least one degree of freedom");
  return Math.max(0, 1 - gammaCdf(chiSquare, degreesOfFreedom / 2, 0.5));
}
