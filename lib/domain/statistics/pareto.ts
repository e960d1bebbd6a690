export interface Counts {
  name: string;
  count: number;
}

export interface ParetoLine extends Counts {
  /** With all before it, of the whole; null where there is nothing at all. */
  cumulativeShare: number | null;
  /** Belongs to the fewest that together make the larger part. */
  isVital: boolean;
}

/**
 * Most frequent first, with how much the leading ones make up together. Small differences are no order: show the intervals
 * beside them, and rank cost or rate where those matter more than counts.
 *
 * Source: J. M. Juran's "vital few" (from memory).
 *
 * @param last name of the catch-all, which stands last whatever its size
 * @example pareto([{ name: "drain", count: 44 }, { name: "gasket", count: 61 }], { vitalShare: 0.8 })
 */
export function pareto(counts: readonly Counts[], { last, vitalShare }: { last?: string; vitalShare: number }): readonly ParetoLine[] {
  const total = counts.reduce((sum, { count }) => sum + count, 0);
  const order = (a: Counts, b: Counts) => Number(a.name === last) - Number(b.name === last) || b.count - a.count || (a.name < b.name ? -1 : 1);
  let before = 0;
  return counts.toSorted(order).map(({ name, count }) => {
    const isVital = total > 0 && before / total < vitalShare;
    before += count;
    return { name, count, cumulativeShare: total > 0 ? before / total : null, isVital };
  });
}
