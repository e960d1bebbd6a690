/** A calendar month, `2026-01`; sorts as text. */
export type Month = string;

/** From the first to the last of these months, both whole. */
export interface Period {
  from: Month;
  to: Month;
}

const NAMES = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"] as const;

/**
 * The month so many months later, or earlier.
 *
 * @example monthsLater("2026-11", 3) // "2027-02"
 */
export function monthsLater(month: Month, months: number): Month {
  const index = Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1 + months;
  return `${String(Math.floor(index / 12)).padStart(4, "0")}-${String((index % 12) + 1).padStart(2, "0")}`;
}

/** The twelve months that end with this one. */
export function yearUpTo(month: Month): Period {
  return { from: monthsLater(month, -11), to: month };
}

/** A month in words: "January 2026". */
export function monthInWords(month: Month): string {
  return `${NAMES[Number(month.slice(5)) - 1]} ${month.slice(0, 4)}`;
}

/** A period in words: "from January 2026 to October 2026", "in January 2026". */
export function periodInWords({ from, to }: Period): string {
  return from === to ? `in ${monthInWords(from)}` : `from ${monthInWords(from)} to ${monthInWords(to)}`;
}

/**
 * How many months the second lies after the first; below 0 where it lies before.
 *
 * @example monthsBetween("2026-11", "2027-02") // 3
 */
export function monthsBetween(first: Month, second: Month): number {
  const counted = (month: Month) => Number(month.slice(0, 4)) * 12 + Number(month.slice(5));
  return counted(second) - counted(first);
}

/** Each month of a period, in order. */
export function eachMonthOf({ from, to }: Period): readonly Month[] {
  return Array.from({ length: Math.max(0, monthsBetween(from, to) + 1) }, (_, index) => monthsLater(from, index));
}

/** How much of its month a day has left behind it, as a part from above 0 to 1: the 15th of 30 is a half. */
export function partOfMonth(day: string): number {
  const [year, month, date] = [Number(day.slice(0, 4)), Number(day.slice(5, 7)), Number(day.slice(8))];
  return date / new Date(Date.UTC(year, month, 0)).getUTCDate();
}
