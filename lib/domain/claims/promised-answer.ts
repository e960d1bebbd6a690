import { instantOf, isoWeekday, localDay, minutesOf, nextDay, type WorkingHours } from "./working-hours";

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
