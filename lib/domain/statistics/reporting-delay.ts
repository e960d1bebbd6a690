export interface ReportingDelay {
  /** Share of all claims that has come in within so many months, of those that come within the longest delay seen. */
  shareWithin: readonly number[];
  /** By month of event, in the order given. */
  reported: readonly number[];
  /** With those still to be reported; null where none can have come in yet. */
  adjusted: readonly (number | null)[];
}

/**
 * Corrects recent months for claims not yet filed: they always look good until they are old enough. The shares are found
 * from the longest delay backwards, each from the months old enough to have seen it. The newest months carry most of the
 * doubt; nothing is assumed to come after the longest delay seen.
 *
 * Source: J. F. Lawless, "Adjustments for reporting delays and the prediction of occurred but not reported events", Canadian
 * Journal of Statistics 22 (1994) (from memory; checked against survfit in R on reversed time).
 *
 * @param months oldest first; of each, the claims that came in with a delay of 0, 1, ... months so far
 * @example adjustForDelay([[20, 12], [24]]).adjusted // [32, 38.4]
 */
export function adjustForDelay(months: readonly (readonly number[])[]): ReportingDelay {
  const delays = Math.max(0, ...months.map((row) => row.length));
  const shareWithin = Array.from({ length: delays }, () => 1);
  for (let delay = delays - 1; delay > 0; delay -= 1) {
    const oldEnough = months.filter((row) => row.length > delay);
    const withThisDelay = oldEnough.reduce((sum, row) => sum + (row[delay] ?? 0), 0);
    const withinIt = oldEnough.reduce((sum, row) => sum + row.slice(0, delay + 1).reduce((part, claims) => part + claims, 0), 0);
    shareWithin[delay - 1] = (shareWithin[delay] ?? 1) * (withinIt > 0 ? 1 - withThisDelay / withinIt : 1);
  }
  const reported = months.map((row) => row.reduce((sum, claims) => sum + claims, 0));
  return {
    shareWithin,
    reported,
    adjusted: months.map((row, index) => {
      const share = shareWithin[row.length - 1] ?? 0;
      return share > 0 ? (reported[index] ?? 0) / share : null;
    }),
  };
}
