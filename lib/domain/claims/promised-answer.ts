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
 * The time by which a first answer is promised: so many working hours after filing.
 *
 * @example eight hours from Friday 16:00, open 08:00 to 17:00 on weekdays, end on Monday at 15:00 local time, whatever
 *   the clocks do over the weekend
 * @throws when no day is a working day or the hours are not in order
 */
export function promisedAnswer(filedAt: Date, hours: number, working: WorkingHours): Date {
  const opens = minutesOf(working.opensAt);
  const closes = minutesOf(working.closesAt);
  if (working.workingDays.length === 0 || opens >= closes) throw new Error("promisedAnswer needs a working day and hours in order");
  let left = hours * 60 * 60_000;
  for (let day = localDay(filedAt, working.timeZone); ; day = nextDay(day)) {
    if (!working.workingDays.includes(isoWeekday(day))) continue;
    const from = Math.max(filedAt.getTime(), instantOf(day, opens, working.timeZone));
    const open = instantOf(day, closes, working.timeZone) - from;
    if (open <= 0) continue;
    if (left <= open) return new Date(from + left);
    left -= open;
  }
}

/** A calendar day as midnight UTC, so that counting days knows no clock changes. */
type Day = number;

const nextDay = (day: Day): Day => day + 86_400_000;
const isoWeekday = (day: Day): number => new Date(day).getUTCDay() || 7;

function minutesOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return hours * 60 + minutes;
}

/** What a wall clock in the zone shows at an instant, as if it were UTC. */
function wallClock(instant: number, timeZone: string): number {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone,
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
    hourCycle: "h23",
  }).formatToParts(instant);
  const part = (type: Intl.DateTimeFormatPartTypes) => Number(parts.find((found) => found.type === type)?.value);
  return Date.UTC(part("year"), part("month") - 1, part("day"), part("hour"), part("minute"), part("second"));
}

function localDay(instant: Date, timeZone: string): Day {
  const wall = wallClock(instant.getTime(), timeZone);
  return wall - (wall % 86_400_000);
}

/** The instant at which the zone's wall clock shows this day and minute. */
function instantOf(day: Day, minutes: number, timeZone: string): number {
  const wall = day + minutes * 60_000;
  // The first guess may stand on the other side of a clock change; the second cannot, for hours people work.
  const guess = wall - (wallClock(wall, timeZone) - wall);
  return guess - (wallClock(guess, timeZone) - wall);
}
