import type { Interval } from "./poisson-interval";

/** Uniform in 0..1, 1 excluded. */
export type RandomNumber = () => number;

/**
 * A mean with the interval that drawing the same cases again and again, with repeats, gives it: how far a difference
 * seen on these verdicts may be off by which verdicts there happened to be. Percentile limits.
 *
 * Source: B. Efron, "Bootstrap methods: another look at the jackknife", Annals of Statistics 7 (1979), from memory.
 *
 * @param random seeded, so that the same cases give the same interval
 * @example bootstrapMean([1, 1, 1], 0.95, 100, random) // { estimate: 1, lower: 1, upper: 1 }
 * @throws without a case
 */
export function bootstrapMean(values: readonly number[], confidence: number, resamples: number, random: RandomNumber): Interval {
  const count = values.length;
  if (count === 0) throw new Error("bootstrapMean needs at least one case");
  const means = Float64Array.from({ length: resamples }, () => {
    let sum = 0;
    for (let draw = 0; draw < count; draw++) sum += values[Math.floor(random() * count)] ?? 0;
    return sum / count;
  }).sort();
  const at = (share: number) => means[Math.min(resamples - 1, Math.max(0, Math.round(share * (resamples - 1))))] ?? 0;
  const tail = (1 - confidence) / 2;
  return { estimate: values.reduce((sum, value) => sum + value, 0) / count, lower: at(tail), upper: at(1 - tail) };
}

/**
 * Random numbers that are the same for the same seed. mulberry32 by Tommy Ettinger, public domain, from memory; good for
 * drawing cases, never for a secret.
 */
export function seededRandom(seed: number): RandomNumber {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
