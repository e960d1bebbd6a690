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
