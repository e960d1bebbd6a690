import type { Margin } from "../physics/margin";
import type { Quantity } from "./knowledge";

/** One physical fact as measured: a margin in a unit that people read, and the probability of falling short of it. */
export interface PhysicalReading {
  margin: Margin;
  unit: string;
  /** Of the fact as a whole: it may hang on more than the margin shown. */
  fallingShort: number;
  /** How probable that was before anybody measured. */
  before: number;
  /** What it is made of. */
  from: readonly Quantity[];
}

/** Nothing was known beforehand of which side it lies on. */
export const EVEN = 0.5;

/** A margin with its figures in another unit. */
export function marginIn(margin: Margin, siPerUnit: number): Margin {
  return {
    ...margin,
    value: margin.value / siPerUnit,
    spread: margin.spread / siPerUnit,
    limit: margin.limit / siPerUnit,
    margin: margin.margin / siPerUnit,
  };
}

/** The reading that hangs on one margin alone. */
export function readingOf(margin: Margin, siPerUnit: number, unit: string, from: readonly Quantity[]): PhysicalReading {
  return { margin: marginIn(margin, siPerUnit), unit, fallingShort: margin.fallingShort, before: EVEN, from };
}
