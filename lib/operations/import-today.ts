import "server-only";

/** The seller's day as `2026-11-25`: nothing was shipped after it. */
export function todayIn(timeZone: string, now: Date = new Date()): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" }).format(now);
}
