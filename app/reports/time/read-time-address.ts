import { monthsLater, type Period } from "@/lib/domain/reporting/month";

/** The period where an address names none: three years, so that a season can be told from a change. */
export function usualYears(): Period {
  const to = new Date().toISOString().slice(0, 7);
  return { from: monthsLater(to, -35), to };
}
