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

/** Two digits are as many as such figures are good for. */
const DIGITS = 2;
const shown = (value: number) => String(Number(value.toPrecision(DIGITS)));

/**
 * A reading in words, so that it can be argued with.
 *
 * Example: "1.7 \u00b1 1 l/min against a limit of 2.5; falls short with 69 %".
 */
export function readingInWords({ margin: { value, spread, limit }, unit, fallingShort, before }: PhysicalReading): string {
  const percent = `${Math.round(fallingShort * 100)} %`;
  const chance = before === EVEN ? `falls short with ${percent}` : `short only together, with ${percent}; ${Math.round(before * 100)} % before anybody measured`;
  return `${shown(value)} \u00b1 ${shown(spread)} ${unit} against a limit of ${shown(limit)}; ${chance}`;
}
