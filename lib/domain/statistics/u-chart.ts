/** A month on a chart: what was counted, and on how much. A size of 0 leaves its place empty. */
export interface Counted {
  count: number;
  size: number;
}

export interface ChartPoint {
  rate: number;
  lower: number;
  upper: number;
  isOutside: boolean;
}

export interface ControlChart {
  center: number;
  /** In the order given; null where the size is 0. */
  points: readonly (ChartPoint | null)[];
}

/**
 * Rates by month with limits that chance alone leaves once in some hundred months: whether a month is out of the
 * ordinary. The limits follow the size of each month; where all sizes are 1 it is the chart of counts.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.3.1 (checked against R).
 *
 * @param sigmas how many standard deviations the limits stand from the centre, commonly 3
 * @example uChart([{ count: 14, size: 10 }, { count: 12, size: 8 }, ...], 3)
 * @returns null where nothing at all was exposed
 */
export function uChart(months: readonly Counted[], sigmas: number): ControlChart | null {
  return chartWith(months, sigmas, 1);
}

/** Mean range of two normal values in standard deviations, with the three decimals in common use. */
const MEAN_RANGE_OF_TWO = 1.128;

export interface OverdispersedChart extends ControlChart {
  /** Deviation of each month from the centre in Poisson standard deviations; null where the size is 0. */
  deviations: readonly (number | null)[];
  /** How many times wider months spread than counts alone would. */
  widening: number;
}

/**
 * The same for large months, in which rates differ by more than counting: the limits are widened by how far each month
 * lies from the one before. With under about 20 months the widening is a rough guess.
 *
 * Source: D. B. Laney, "Improved control charts for attributes", Quality Engineering 14 (2002) (from memory; checked
 * against R).
 *
 * @example laneyChart([{ count: 61, size: 5200 }, { count: 44, size: 4800 }, ...], 3)
 * @returns null where under two months were exposed or nothing happened in any: then there is no spread to see
 */
export function laneyChart(months: readonly Counted[], sigmas: number): OverdispersedChart | null {
  const center = pooledRate(months);
  if (!center) return null;
  const deviations = months.map(({ count, size }) => (size > 0 ? (count / size - center) / Math.sqrt(center / size) : null));
  const known = deviations.filter((deviation) => deviation !== null);
  if (known.length < 2) return null;
  const steps = known.slice(1).map((deviation, index) => Math.abs(deviation - (known[index] ?? 0)));
  const widening = steps.reduce((sum, step) => sum + step, 0) / steps.length / MEAN_RANGE_OF_TWO;
  const chart = chartWith(months, sigmas, widening);
  return chart && { ...chart, deviations, widening };
}

function chartWith(months: readonly Counted[], sigmas: number, widening: number): ControlChart | null {
  const center = pooledRate(months);
  if (center === null) return null;
  const points = months.map(({ count, size }): ChartPoint | null => {
    if (!(size > 0)) return null;
    const reach = sigmas * Math.sqrt(center / size) * widening;
    const rate = count / size;
    const lower = Math.max(0, center - reach);
    const upper = center + reach;
    return { rate, lower, upper, isOutside: rate < lower || rate > upper };
  });
  return { center, points };
}

function pooledRate(months: readonly Counted[]): number | null {
  const exposed = months.filter(({ size }) => size > 0);
  const size = exposed.reduce((sum, month) => sum + month.size, 0);
  return size > 0 ? exposed.reduce((sum, { count }) => sum + count, 0) / size : null;
}
