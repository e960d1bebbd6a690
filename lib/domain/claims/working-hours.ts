/** When somebody answers: local time of the seller's zone. */
export interface WorkingHours {
  /** IANA name, `Europe/Berlin`. */
  timeZone: string;
  /** ISO weekdays, Monday 1 to Sunday 7. */
  workingDays: readonly number[];
  /** `08:00` and `17:00`. */
  opensAt: string;
  closesAt: string;
}

/**
 * Measures how many working hours lie between two instants: what a promise in working hours is held against. The opening
 * hours of the whole stretch are laid out once, so that many claims cost little.
 *
 * Example: open 08:00 to 17:00 on weekdays, from Friday 16:00 to Monday 09:30 local time are 2.5 hours.
 *
 * @param first no instant measured lies before it
 * @param last no instant measured lies after it
 */
export function workingClock(working: WorkingHours, first: Date, last: Date): (from: Date, to: Date) => number {
  const openings: { from: number; to: number; before: number }[] = [];
  let before = 0;
  for (let day = localDay(first, working.timeZone); day <= localDay(last, working.timeZone); day = nextDay(day)) {
    if (!working.workingDays.includes(isoWeekday(day))) continue;
    const from = instantOf(day, minutesOf(working.opensAt), working.timeZone);
    const to = instantOf(day, minutesOf(working.closesAt), working.timeZone);
    openings.push({ from, to, before });
    before += to - from;
  }
  const openUntil = (instant: Date): number => {
    const opening = openings[lastAtOrBefore(openings, instant.getTime())];
    return opening ? opening.before + Math.min(instant.getTime(), opening.to) - opening.from : 0;
  };
  return (from, to) => Math.max(0, openUntil(to) - openUntil(from)) / 3_600_000;
}

/** Index of the last opening that began by then; -1 before the first. */
function lastAtOrBefore(openings: readonly { from: number }[], instant: number): number {
  let low = 0;
  let high = openings.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((openings[middle]?.from ?? 0) <= instant) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** A calendar day as midnight UTC, so that counting days knows no clock changes. */
export type Day = number;

export const nextDay = (day: Day): Day => day + 86_400_000;
export const isoWeekday = (day: Day): number => new Date(day).getUTCDay() || 7;

/** Minutes from midnight of a clock's reading. */
export function minutesOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return hours * 60 + minutes;
}

const clocks = new Map<string, Intl.DateTimeFormat>();

/** Making one takes long beside reading it. */
function clockOf(timeZone: string): Intl.DateTimeFormat {
  const made =
    clocks.get(timeZone) ??
    new Intl.DateTimeFormat("en-GB", { timeZone, year: "numeric", month: "numeric", day: "numeric", hour: "numeric", minute: "numeric", second: "numeric", hourCycle: "h23" });
  clocks.set(timeZone, made);
  return made;
}

/** What a wall clock in the zone shows at an instant, as if it were UTC. */
function wallClock(instant: number, timeZone: string): number {
  const parts = clockOf(timeZone).formatToParts(instant);
  const part = (type: Intl.DateTimeFormatPartTypes) => Number(parts.find((found) => found.type === type)?.value);
  return Date.UTC(part("year"), part("month") - 1, part("day"), part("hour"), part("minute"), part("second"));
}

/** The day that a zone's wall clock shows at an instant. */
export function localDay(instant: Date, timeZone: string): Day {
  const wall = wallClock(instant.getTime(), timeZone);
  return wall - (wall % 86_400_000);
}

/** The instant at which the zone's wall clock shows this day and minute. */
export function instantOf(day: Day, minutes: number, timeZone: string): number {
  const wall = day + minutes * 60_000;
  // The first guess may stand on the other side of a clock change; the second cannot, for hours people work.
  const guess = wall - (wallClock(wall, timeZone) - wall);
  return guess - (wallClock(guess, timeZone) - wall);
}
