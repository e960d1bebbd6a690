import chisquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";

/** An estimate with its limits, all in one unit. */
export interface Interval {
  estimate: number;
  lower: number;
  upper: number;
}

/**
 * Rate of events per unit of exposure with its exact interval: how many claims a shipment brings, and how far that may
 * be off by chance alone. The interval is central and never too narrow; with no event its lower limit is 0.
 *
 * Source: F. Garwood, "Fiducial limits for the Poisson distribution", Biometrika 28 (1936), through chi-square
 * quantiles (from memory; checked against R's poisson.test).
 *
 * @param count events, a whole number from 0
 * @param exposure above 0, in any unit; the rate is per that unit
 * @param confidence between 0 and 1
 * @example poissonInterval(10, 1, 0.9) // { estimate: 10, lower: 5.425..., upper: 16.962... }
 * @throws when an argument is out of its range
 */
export function poissonInterval(count: number, exposure: number, confidence: number): Interval {
  if (!Number.isInteger(count) || count < 0) throw new Error("poissonInterval needs a whole count from 0");
  if (!(exposure > 0 && Number.isFinite(exposure))) throw new Error("poissonInterval needs an exposure above 0");
  if (!(confidence > 0 && confidence < 1)) throw new Error("poissonInterval needs a confidence between 0 and 1");
  const tail = (1 - confidence) / 2;
  return {
    estimate: count / exposure,
    lower: count === 0 ? 0 : chisquareQuantile(tail, 2 * count) / 2 / exposure,
    upper: chisquareQuantile(1 - tail, 2 * count + 2) / 2 / exposure,
  };
}
