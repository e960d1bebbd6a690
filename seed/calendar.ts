/** Days are counted from 1 January 1970, UTC; instants are milliseconds from the same moment. */
export type Day = number;
export type Instant = number;

export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;

export function dayOf(isoDate: string): Day {
  const instant = Date.parse(`${isoDate}T00:00:00Z`);
  if (Number.isNaN(instant)) throw new Error(`dayOf needs a date as 2026-01-31, not ${isoDate}`);
  return instant / DAY;
}

export function isoDate(day: Day): string {
  return new Date(day * DAY).toISOString().slice(0, 10);
}

export function isoInstant(instant: Instant): string {
  return new Date(instant).toISOString();
}

/** 0 is Sunday. 1 January 1970 was a Thursday. */
export function weekday(day: Day): number {
  return (day + 4) % 7;
}

export function isWorkingDay(day: Day): boolean {
  return weekday(day) >= 1 && weekday(day) <= 5;
}

/** 1..12 */
export function monthOf(day: Day): number {
  return new Date(day * DAY).getUTCMonth() + 1;
}

/** `2611` for November 2026. */
export function yearAndMonth(day: Day): string {
  return isoDate(day).slice(2, 7).replace("-", "");
}

/** The moment so many working hours later: Monday to Friday, eight to five. */
export function afterWorkingHours(from: Instant, hours: number): Instant {
  const opens = 8 * HOUR;
  const closes = 17 * HOUR;
  let day = Math.floor(from / DAY);
  let hour = Math.max(from - day * DAY, opens);
  let left = hours * HOUR;
  for (;;) {
    const available = isWorkingDay(day) ? Math.max(0, closes - hour) : 0;
    if (left <= available) return day * DAY + hour + left;
    left -= available;
    day += 1;
    hour = opens;
  }
}
