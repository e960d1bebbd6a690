/** A day of the calendar, as ISO 8601 writes it: "2026-02-28". Days in this form compare as texts do. */
export type CalendarDay = string;

/**
 * The same day of the month so many months later; the last day of that month where it has no such day. The way in which
 * a period in months is reckoned to end.
 *
 * Source: Regulation (EEC, Euratom) No 1182/71, Article 3(2)(c) (from memory); PostgreSQL adds intervals of months likewise.
 * Example: 2024-01-31 and one month make 2024-02-29, and 2024-02-29 and twelve months 2025-02-28.
 */
export function addMonths(day: CalendarDay, months: number): CalendarDay {
  const [year = 0, month = 0, date = 0] = day.split("-").map(Number);
  const monthsSinceYearZero = year * 12 + (month - 1) + months;
  const [intoYear, intoMonth] = [Math.floor(monthsSinceYearZero / 12), monthsSinceYearZero - 12 * Math.floor(monthsSinceYearZero / 12)];
  const lastOfMonth = new Date(Date.UTC(intoYear, intoMonth + 1, 0)).getUTCDate();
  return new Date(Date.UTC(intoYear, intoMonth, Math.min(date, lastOfMonth))).toISOString().slice(0, 10);
}

/** The day after. Example: 2026-02-28 is followed by 2026-03-01. */
export function addDay(day: CalendarDay): CalendarDay {
  return new Date(Date.parse(`${day}T00:00:00Z`) + 86_400_000).toISOString().slice(0, 10);
}

/** The day at a place, of an instant. Example: 2026-03-01T23:30Z is 2026-03-02 in Europe/Berlin. */
export function dayAt(instant: Date, timeZone: string): CalendarDay {
  return new Intl.DateTimeFormat("en-CA", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" }).format(instant);
}

/** The day that a column without a time holds. */
export const dayOfColumn = (date: Date): CalendarDay => date.toISOString().slice(0, 10);

/** As people write it here: "28 February 2026". */
export function dayInWords(day: CalendarDay): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" }).format(new Date(`${day}T00:00:00Z`));
}
