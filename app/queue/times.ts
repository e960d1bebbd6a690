/** Times as the desk reads them, in the seller's own zone. */
export function inZone(timeZone: string) {
  const format = (options: Intl.DateTimeFormatOptions) => new Intl.DateTimeFormat("en-GB", { ...options, timeZone });
  const time = format({ day: "numeric", month: "short", year: "numeric", hour: "2-digit", minute: "2-digit" });
  const day = new Intl.DateTimeFormat("en-GB", { dateStyle: "medium", timeZone: "UTC" });
  return {
    time: (instant: Date) => time.format(instant),
    /** A calendar day, which has no zone. */
    day: (date: Date) => day.format(date),
  };
}
