/** Where money goes that quality costs: to keep faults away, to look for them, and to bear them within and outside the house. */
export const QUALITY_COSTS = ["prevention", "appraisal", "internalFailure", "externalFailure"] as const;
export type QualityCost = (typeof QUALITY_COSTS)[number];

export interface CostOfQuality {
  totals: Readonly<Record<QualityCost, number>>;
  total: number;
  /** What faults cost, within and outside. */
  costOfPoorQuality: number;
  /** Null without sales. */
  shareOfSales: number | null;
  /** What faults cost, of the whole; null without any cost. */
  failureShare: number | null;
}

/**
 * Sums of what quality costs. Goodwill lost and sales that never came are absent from it.
 *
 * Source: A. V. Feigenbaum (1956); BS 6143-2 (from memory).
 *
 * @example costOfQuality({ prevention: [1200], appraisal: [450], internalFailure: [300], externalFailure: [9800] }, 410000)
 */
export function costOfQuality(entries: Readonly<Record<QualityCost, readonly number[]>>, sales: number): CostOfQuality {
  const sum = (amounts: readonly number[]) => amounts.reduce((total, amount) => total + amount, 0);
  const totals = {
    prevention: sum(entries.prevention),
    appraisal: sum(entries.appraisal),
    internalFailure: sum(entries.internalFailure),
    externalFailure: sum(entries.externalFailure),
  };
  const total = totals.prevention + totals.appraisal + totals.internalFailure + totals.externalFailure;
  const costOfPoorQuality = totals.internalFailure + totals.externalFailure;
  return {
    totals,
    total,
    costOfPoorQuality,
    shareOfSales: sales > 0 ? total / sales : null,
    failureShare: total > 0 ? costOfPoorQuality / total : null,
  };
}
