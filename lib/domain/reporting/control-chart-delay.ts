import { adjustForDelay } from "../statistics/reporting-delay";
import { sumBy } from "./filed-claims";
import { type Month, monthsBetween, monthsLater, partOfMonth } from "./month";

/** How claims come in after shipping, month by month, as far as the oldest shipments tell. */
export interface FilingDelay {
  /** Share of all claims that has come in by the end of so many whole months, 0 being the month of shipping. */
  shareWithin: readonly number[];
  /** Square of its standard error in parts of it. */
  relativeVariance: readonly number[];
  claims: number;
}

/** How much of what will be known of a month is known. */
export interface Completeness {
  /** From 0 to 1. */
  share: number;
  relativeVariance: number;
}

export const COMPLETE: Completeness = { share: 1, relativeVariance: 0 };

/**
 * How late claims are filed after shipping, from those filed in whole months: what lately shipped months still miss. Its
 * error is Greenwood's on reversed time, each delay being told by the months old enough to have seen it.
 *
 * @returns null without any claim
 */
export function filingDelay(filed: readonly { month: Month; filed: Month; claims: number }[], today: string): FilingDelay | null {
  const thisMonth = today.slice(0, 7);
  const whole = filed.filter((line) => line.filed < thisMonth && line.month <= line.filed && line.claims > 0);
  const first = whole.reduce<Month | null>((least, { month }) => (least === null || month < least ? month : least), null);
  if (first === null) return null;
  const counts = sumBy(whole, ({ month, filed: of }) => monthsBetween(first, month) * 10_000 + monthsBetween(month, of), ({ claims }) => claims);
  const rows = Array.from({ length: monthsBetween(first, thisMonth) }, (_, month) =>
    Array.from({ length: monthsBetween(monthsLater(first, month), thisMonth) }, (_, delay) => counts.get(month * 10_000 + delay) ?? 0),
  );
  const { shareWithin } = adjustForDelay(rows);
  const relativeVariance = shareWithin.map(() => 0);
  for (let delay = shareWithin.length - 1; delay > 0; delay -= 1) {
    const oldEnough = rows.filter((row) => row.length > delay);
    const withThis = oldEnough.reduce((sum, row) => sum + (row[delay] ?? 0), 0);
    const within = oldEnough.reduce((sum, row) => sum + row.slice(0, delay + 1).reduce((part, claims) => part + claims, 0), 0);
    relativeVariance[delay - 1] = (relativeVariance[delay] ?? 0) + (within > withThis ? withThis / (within * (within - withThis)) : 0);
  }
  return { shareWithin, relativeVariance, claims: whole.reduce((sum, { claims }) => sum + claims, 0) };
}

/**
 * How much of the claims about what was shipped in a month has come in by today; within this month, in step with its days.
 *
 * @example half of the claims come by the end of the second month and 0.6 by the third: on 15 November, 0.55 of September's
 */
export function completenessOf({ shareWithin, relativeVariance }: FilingDelay, shipped: Month, today: string): Completeness {
  const months = monthsBetween(shipped, today.slice(0, 7));
  if (months < 0) return { share: 0, relativeVariance: 0 };
  if (months > shareWithin.length) return COMPLETE;
  const before = months === 0 ? 0 : (shareWithin[months - 1] ?? 1);
  const after = shareWithin[months] ?? 1;
  return { share: before + partOfMonth(today) * (after - before), relativeVariance: relativeVariance[Math.max(0, months - 1)] ?? 0 };
}
