import type { Lifetime } from "../statistics/lifetimes";
import { survivalCurve } from "../statistics/survival-curve";

/** So many claims that waited as long, from filing until it happened or until nobody watched any more. */
export interface Wait {
  minutes: number;
  isOver: boolean;
  claims: number;
}

/** The same claims' waits by the opening hours and by the calendar. */
export interface Waits {
  working: readonly Wait[];
  calendar: readonly Wait[];
}

/** How long half waited, with its interval, and nine in ten, in hours. Null where the claims do not tell yet. */
export interface WaitQuantiles {
  median: number | null;
  medianLower: number | null;
  medianUpper: number | null;
  ninetieth: number | null;
}

export interface WaitSummary {
  claims: number;
  over: number;
  /** Still waiting, or ended without it. */
  censored: number;
  working: WaitQuantiles;
  calendar: WaitQuantiles;
}

/**
 * Sums up waits, told in minutes. A claim that still waits has waited at least so long: leaving it out would make a
 * desk look quicker the more it leaves undone.
 *
 * Source: Kaplan and Meier's curve (see `survival-curve.ts`), its median with the log-log band and the time at which it
 * comes down to a tenth.
 *
 * @example waits of 60, 120 and 180 minutes that are over: half waited up to 2 hours, nine in ten up to 3
 */
export function summariseWaits({ working, calendar }: Waits): WaitSummary {
  const claimsOf = (waits: readonly Wait[]) => waits.reduce((sum, { claims }) => sum + claims, 0);
  const over = claimsOf(calendar.filter(({ isOver }) => isOver));
  const claims = claimsOf(calendar);
  return { claims, over, censored: claims - over, working: quantiles(working), calendar: quantiles(calendar) };
}

/**
 * A wait as it is kept: whole minutes, from 1,000 on to three figures. So a million claims have a few thousand waits, and
 * none is told wrong by more than half a percent.
 *
 * @example keptMinutes(1.51) // 91
 */
export function keptMinutes(hours: number): number {
  const minutes = Math.max(0, Math.round(hours * 60));
  const step = 10 ** Math.max(0, Math.floor(Math.log10(Math.max(1, minutes))) - 2);
  return Math.round(minutes / step) * step;
}

const CONFIDENCE = 0.9;
/** A product of shares seldom hits a tenth exactly. */
const TENTH = 0.1 + 1e-9;

function quantiles(waits: readonly Wait[]): WaitQuantiles {
  const { steps, median, medianLower, medianUpper } = survivalCurve(
    waits.map(({ minutes, isOver, claims }): Lifetime => ({ time: minutes / 60, failed: isOver, units: claims })),
    CONFIDENCE,
  );
  return { median, medianLower, medianUpper, ninetieth: steps.find(({ survival }) => survival <= TENTH)?.time ?? null };
}
