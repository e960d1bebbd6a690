export interface EwmaPoint {
  average: number;
  /** Limits that widen with the months seen. */
  lower: number;
  upper: number;
  isOutside: boolean;
}

/**
 * Exponentially weighted moving average: each value counts for a part, what came before for the rest, so that a small
 * lasting change shows sooner than on a chart of single values.
 *
 * Source: S. W. Roberts (1959) and J. M. Lucas and M. S. Saccucci (1990), both in Technometrics (from memory);
 * NIST/SEMATECH e-Handbook, section 6.3.2.4.
 *
 * @param weight of the newest value, above 0, at most 1
 * @param start what is usual
 * @param sigma standard deviation of a single value
 * @param width of the limits in standard deviations of the average
 * @example ewmaChart([52, 47, 53], { weight: 0.3, start: 50, sigma: 2.0539, width: 3 })[2] // average 50.564, limits 47.57 and 52.43
 * @throws when a setting is out of its range
 */
export function ewmaChart(values: readonly number[], { weight, start, sigma, width }: { weight: number; start: number; sigma: number; width: number }): readonly EwmaPoint[] {
  if (!(weight > 0 && weight <= 1)) throw new Error("ewmaChart needs a weight above 0 and at most 1");
  if (!(sigma > 0 && width > 0)) throw new Error("ewmaChart needs a standard deviation and a width above 0");
  let average = start;
  return values.map((value, index) => {
    average = weight * value + (1 - weight) * average;
    const reach = widestReach({ weight, sigma, width }) * Math.sqrt(1 - (1 - weight) ** (2 * (index + 1)));
    return { average, lower: start - reach, upper: start + reach, isOutside: Math.abs(average - start) > reach };
  });
}

/** How far from the start the limits stand in the end. */
export function widestReach({ weight, sigma, width }: { weight: number; sigma: number; width: number }): number {
  return width * sigma * Math.sqrt(weight / (2 - weight));
}
