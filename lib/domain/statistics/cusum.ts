/** Sums of what each value had beyond what is allowed, upwards and downwards. */
export interface Cusum {
  high: readonly number[];
  low: readonly number[];
  /** Place of the first sum above the limit; null where there is none. */
  firstSignal: number | null;
  /** Place at which the change likely began: the first since the sum last stood at 0. */
  likelyStart: number | null;
}

/**
 * Cumulative sum of deviations: finds a small lasting shift of a measured value, and tells since when.
 *
 * Source: E. S. Page, "Continuous inspection schemes", Biometrika 41 (1954) (from memory); NIST/SEMATECH e-Handbook,
 * section 6.3.2.3.
 *
 * @param allowance what a value may be off without counting, in its unit: half the shift to be found
 * @param limit above which a sum signals, in the same unit
 * @example cusum([325.35, 328.325], { target: 325, allowance: 0.3175, limit: 4.1959 }).high // [0.0325, 3.04]
 */
export function cusum(values: readonly number[], { target, allowance, limit }: { target: number; allowance: number; limit: number }): Cusum {
  const high = runningSums(values.map((value) => value - target - allowance));
  const low = runningSums(values.map((value) => target - allowance - value));
  const firstHigh = high.findIndex((sum) => sum > limit);
  const firstLow = low.findIndex((sum) => sum > limit);
  const isHigh = firstHigh >= 0 && (firstLow < 0 || firstHigh <= firstLow);
  const firstSignal = isHigh ? firstHigh : firstLow;
  return { high, low, firstSignal: firstSignal < 0 ? null : firstSignal, likelyStart: firstSignal < 0 ? null : startOfRise(isHigh ? high : low, firstSignal) };
}

/** Adds up what comes, never below 0. */
export function runningSums(steps: readonly number[]): readonly number[] {
  let sum = 0;
  return steps.map((step) => {
    sum = Math.max(0, sum + step);
    return sum;
  });
}

/** The place after the last 0 before a signal, by Page the likely start of the change. */
export function startOfRise(sums: readonly number[], signal: number): number {
  return sums.slice(0, signal).findLastIndex((sum) => sum === 0) + 1;
}
