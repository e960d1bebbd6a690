/** The smallest and the largest of a number. */
export interface NumberRange {
  min: number;
  max: number;
}

/**
 * What a number may be at all, from what it usually is: ten times as far (judgement). Between the two a value is asked
 * about; outside this one it is refused. What usually starts at 0 or above is never negative.
 *
 * Example: a bore of usually 3 to 60 mm is possible from 0.3 to 600 mm; a fall of -300 to 1500 mm from -3000 to 15000 mm.
 */
export function possibleRange({ min, max }: NumberRange): NumberRange {
  return { min: min < 0 ? min * 10 : min / 10, max: max < 0 ? max / 10 : max * 10 };
}
