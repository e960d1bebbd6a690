import { marginOf, type Margin } from "../physics/margin";
import { normal } from "../physics/estimate";
import type { Accuracy, Limit } from "./knowledge";

/** Of a hundred numbers about one is of the wrong part, in the wrong unit or misread (judgement). */
const GROSS_ERROR = 0.01;

/** One standard deviation of a reading. */
export function spreadOf(value: number, { absolute, share }: Accuracy): number {
  return Math.hypot(absolute, share * value);
}

/**
 * A reading against a limit that others have published, both with their spreads, in the unit of the reading.
 *
 * Example: an axial play of 0.2 mm, good to 0.01, against a limit of 0.185 mm with a spread of 0.01 is one spread of
 * the two beyond: it is so with a probability of 0.856.
 */
export function marginToLimit(measured: number, spread: number, limit: Limit): Margin {
  const source = limit.provenance.kind === "published" ? limit.provenance.source : (limit.provenance.note ?? limit.provenance.kind);
  const [reading, bound] = [normal(measured, spread), normal(limit.value, limit.spread)];
  return limit.side === "below-is-bad" ? marginOf(reading, bound, "available", source) : marginOf(bound, reading, "needed", source);
}

/** A probability with a floor on both sides for gross errors: 0.834 becomes 0.827. */
export function withGrossErrors(fallingShort: number): number {
  return GROSS_ERROR + (1 - 2 * GROSS_ERROR) * fallingShort;
}

/**
 * Likelihood ratio of a reading for "it falls short": how many times as likely the reading is where it does as where it
 * does not. By Bayes' theorem the odds after the reading over the odds before it, which are even where nothing was
 * known beforehand of which side it lies on.
 *
 * Example: falling short with a probability of 0.834 gives 0.827 / 0.173 = 4.8.
 */
export function ratioOf(fallingShort: number, before = 0.5): number {
  const after = withGrossErrors(fallingShort);
  return after / (1 - after) / (before / (1 - before));
}
