import type { Month } from "./month";

/**
 * Days from shipping to the first drive that are allowed for every unit. Fitting dates are told by claimants alone, who
 * are not like the others, so one delay stands for all. Judgement: three weeks; most kits are fitted within a month.
 */
export const FITTING_DELAY_DAYS = 21;

const DAYS_A_MONTH = 365.2425 / 12;

/** Months of service that are counted: from the first to before the last, 0 being the month after the fitting. */
export interface ServiceWindow {
  first: number;
  before: number;
}
export const WHOLE_LIFE: ServiceWindow = { first: 0, before: Number.POSITIVE_INFINITY };

/**
 * Months that a unit shipped in this month has been in service by a day, on average: from the middle of the month and
 * the usual delay to that day. It is what claims are divided by where units of different age are compared. That a unit
 * left service, or was never fitted, is not known and not allowed for.
 *
 * @param today `2026-11-25`
 * @param window the part of a unit's service that counts
 * @example monthsInService("2026-01", "2026-07-07") // 4.99...: 173 days from 15 January, less 21
 */
export function monthsInService(shipped: Month, today: string, { first, before }: ServiceWindow = WHOLE_LIFE): number {
  const daysSinceShipping = (Date.parse(`${today}T00:00:00Z`) - Date.parse(`${shipped}-15T12:00:00Z`)) / 86_400_000;
  const age = Math.max(0, (daysSinceShipping - FITTING_DELAY_DAYS) / DAYS_A_MONTH);
  return Math.max(0, Math.min(age, before) - first);
}

/** What tells how long units have been in service: months counted up to a day, in a part of their service. */
export interface ServiceClock {
  /** `2026-11-25`. */
  today: string;
  /** Of a unit shipped in this month, by `monthsInService`. */
  monthsOf: (shipped: Month) => number;
}

/** A clock that computes each month once: a report asks for the same few months in every cell. */
export function serviceClock(today: string, window: ServiceWindow = WHOLE_LIFE): ServiceClock {
  const known = new Map<Month, number>();
  return {
    today,
    monthsOf(shipped) {
      const months = known.get(shipped) ?? monthsInService(shipped, today, window);
      known.set(shipped, months);
      return months;
    },
  };
}
