/**
 * A quantity that is not known exactly. Normal about its value where errors add (an angle read off a level); lognormal
 * about its median where they multiply (a flow known within a factor), which never turns negative.
 */
export type Estimate = Normal | Lognormal;

export interface Normal {
  kind: "normal";
  mean: number;
  /** One standard deviation, in the unit of the mean. */
  spread: number;
}

export interface Lognormal {
  kind: "lognormal";
  median: number;
  /** One standard deviation of the natural logarithm: 0.1 is good to about a tenth. */
  logSpread: number;
}

export function normal(mean: number, spread: number): Normal {
  if (!(Number.isFinite(mean) && spread > 0)) throw new Error("normal needs a mean and a spread above 0");
  return { kind: "normal", mean, spread };
}

export function lognormal(median: number, logSpread: number): Lognormal {
  if (!(median > 0 && Number.isFinite(median) && logSpread > 0)) throw new Error("lognormal needs a median and a spread above 0");
  return { kind: "lognormal", median, logSpread };
}

/** What is shown of an estimate: its middle, and one standard deviation beside it in the same unit. */
export function shownEstimate(estimate: Estimate): { value: number; spread: number } {
  if (estimate.kind === "normal") return { value: estimate.mean, spread: estimate.spread };
  return { value: estimate.median, spread: estimate.median * estimate.logSpread };
}
