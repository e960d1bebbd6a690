export interface Stratum {
  /** Events per unit of exposure elsewhere. */
  rate: number;
  /** Exposure here. */
  exposure: number;
}

/**
 * Events to be expected here if each stratum went as it goes elsewhere: indirect standardisation.
 *
 * Source: N. E. Breslow and N. E. Day, "Statistical methods in cancer research", vol. 2 (1987) (from memory; checked
 * against R).
 *
 * @example expectedCount([{ rate: 0.004, exposure: 800 }, { rate: 0.009, exposure: 650 }]) // 9.05
 */
export function expectedCount(strata: readonly Stratum[]): number {
  return strata.reduce((total, { rate, exposure }) => total + rate * exposure, 0);
}
