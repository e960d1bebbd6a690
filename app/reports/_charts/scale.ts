/** Places a value on a length of the drawing. */
export interface Scale {
  at(value: number): number;
  /** Round values within the scale, the first and last included. */
  ticks: readonly number[];
}

/**
 * A scale from 0 to a round value at or above the largest, in steps of 1, 2 or 5.
 *
 * @example scaleTo(38, 200, 0).ticks // 0, 10, 20, 30, 40
 */
export function scaleTo(largest: number, from: number, to: number): Scale {
  const wanted = largest > 0 && Number.isFinite(largest) ? largest : 1;
  const power = 10 ** Math.floor(Math.log10(wanted / 4));
  const step = [1, 2, 5, 10].map((times) => times * power).find((size) => wanted / size <= 5) ?? 10 * power;
  const steps = Math.max(1, Math.ceil(wanted / step - 1e-9));
  const end = steps * step;
  return { at: (value) => from + (Math.min(Math.max(value, 0), end) / end) * (to - from), ticks: Array.from({ length: steps + 1 }, (_, index) => index * step) };
}

/** One length cut into equal columns: the middle of each, and how wide they are. */
export function columns(count: number, from: number, to: number): { middle(index: number): number; width: number } {
  const width = (to - from) / Math.max(1, count);
  return { middle: (index) => from + (index + 0.5) * width, width };
}

/** A number for the path of a drawing: a tenth of a unit is finer than a screen. */
export function drawn(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** A tick's own digits and no more: "0.25", "40". */
export function tickWords(value: number): string {
  return String(Number(value.toPrecision(3)));
}
