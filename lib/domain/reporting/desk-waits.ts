import type { Lifetime } from "../statistics/lifetimes";
import { survivalCurve } from "../statistics/survival-curve";

/** From filing until it happened, or until nobody watched any more. */
export interface Wait {
  from: Date;
  to: Date;
  isOver: boolean;
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
 * Sums up waits. A claim that still waits has waited at least so long: leaving it out would make a desk look quicker the
 * more it leaves undone.
 *
 * Source: Kaplan and Meier's curve (see `survival-curve.ts`), its median with the log-log band and the time at which it
 * comes down to a tenth.
 *
 * @param workingHours between two instants
 * @example waits of 1, 2 and 3 hours that are over: half waited up to 2 hours, nine in ten up to 3
 */
export function summariseWaits(waits: readonly Wait[], workingHours: (from: Date, to: Date) => number): WaitSummary {
  const over = waits.filter(({ isOver }) => isOver).length;
  return {
    claims: waits.length,
    over,
    censored: waits.length - over,
    working: quantiles(waits, workingHours),
    calendar: quantiles(waits, (from, to) => Math.max(0, to.getTime() - from.getTime()) / 3_600_000),
  };
}

const CONFIDENCE = 0.9;
/** A product of shares seldom hits a tenth exactly. */
const TENTH = 0.1 + 1e-9;

function quantiles(waits: readonly Wait[], hours: (from: Date, to: Date) => number): WaitQuantiles {
  const { steps, median, medianLower, medianUpper } = survivalCurve(
    waits.map(({ from, to, isOver }): Lifetime => ({ time: hours(from, to), failed: isOver })),
    CONFIDENCE,
  );
  return { median, medianLower, medianUpper, ninetieth: steps.find(({ survival }) => survival <= TENTH)?.time ?? null };
}
