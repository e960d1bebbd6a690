import { chiSquarePValue } from "./chi-square-test";
import type { Rate } from "./rate-ratio";

export interface Homogeneity {
  pooledRate: number;
  chiSquare: number;
  degreesOfFreedom: number;
  pValue: number;
  /** Chi-square per degree of freedom: 1 where the rates differ by chance alone. */
  dispersion: number;
}

/**
 * Whether several rates may be one and the same: Pearson's chi-square of the counts against what the pooled rate would
 * give each.
 *
 * @example homogeneity([{ count: 11, exposure: 900 }, { count: 7, exposure: 850 }, ...]) // p 0.0799 for five kits
 * @returns null where fewer than two are compared or nothing happened in any
 */
export function homogeneity(rates: readonly Rate[]): Homogeneity | null {
  const exposed = rates.filter(({ exposure }) => exposure > 0);
  const count = exposed.reduce((sum, rate) => sum + rate.count, 0);
  const exposure = exposed.reduce((sum, rate) => sum + rate.exposure, 0);
  if (exposed.length < 2 || count === 0) return null;
  const pooledRate = count / exposure;
  const chiSquare = exposed.reduce((sum, rate) => sum + (rate.count - pooledRate * rate.exposure) ** 2 / (pooledRate * rate.exposure), 0);
  const degreesOfFreedom = exposed.length - 1;
  return { pooledRate, chiSquare, degreesOfFreedom, pValue: chiSquarePValue(chiSquare, degreesOfFreedom), dispersion: chiSquare / degreesOfFreedom };
}
