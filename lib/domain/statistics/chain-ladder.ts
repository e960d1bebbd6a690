export interface ChainLadder {
  /** How much the sum grows from one age to the next. */
  factors: readonly number[];
  /** Null where too few months tell how much the growth varies. */
  sigmaSquared: readonly (number | null)[];
  /** By month of origin, in the order given. */
  ultimate: readonly number[];
  /** Still to come. */
  reserve: readonly number[];
  totalReserve: number;
  standardErrors: readonly (number | null)[];
  totalStandardError: number | null;
}

/**
 * Forecast of what is still to come, of cost or claims, from how earlier months of origin grew with age. Misled where the
 * speed of claiming changes, by a recall say, and by fewer than 5 months.
 *
 * Source: T. Mack, "Distribution-free calculation of the standard error of chain ladder reserve estimates", ASTIN Bulletin
 * 23 (1993), with its least-of rule for the oldest age (from memory; checked against published triangles).
 *
 * @param triangle cumulative, oldest month first; each row as long as that month has been watched, none longer than the first
 * @returns null where an age has nothing to grow from
 * @example chainLadder([[100, 150], [120]]) // the second month grows by 1.5 to 180
 */
export function chainLadder(triangle: readonly (readonly number[])[]): ChainLadder | null {
  const ages = triangle[0]?.length ?? 0;
  if (ages === 0 || triangle.some((row) => row.length === 0 || row.length > ages)) throw new Error("chainLadder needs rows that are no longer than the first");
  const at = (row: readonly number[], age: number) => row[age] ?? 0;
  const factors: number[] = [];
  const sigmaSquared: (number | null)[] = [];
  const seenAt: number[] = [];
  for (let age = 0; age + 1 < ages; age += 1) {
    const grown = triangle.filter((row) => row.length > age + 1);
    const before = grown.reduce((sum, row) => sum + at(row, age), 0);
    const after = grown.reduce((sum, row) => sum + at(row, age + 1), 0);
    if (!(before > 0 && after > 0)) return null;
    const factor = after / before;
    factors.push(factor);
    seenAt.push(before);
    // A month with nothing at this age weighs nothing.
    const scatter = grown.reduce((sum, row) => sum + (at(row, age) > 0 ? at(row, age) * (at(row, age + 1) / at(row, age) - factor) ** 2 : 0), 0);
    sigmaSquared.push(grown.length > 1 ? scatter / (grown.length - 1) : leastOf(sigmaSquared.slice(-2)));
  }

  const growth = (row: readonly number[]) => factors.slice(row.length - 1).reduce((product, factor) => product * factor, 1);
  const ultimate = triangle.map((row) => at(row, row.length - 1) * growth(row));
  const reserve = triangle.map((row, index) => (ultimate[index] ?? 0) - at(row, row.length - 1));
  // What one age adds to the squared relative error of a month whose sum there is `sum`; null where it is not known.
  const added = (age: number, perSum: number) => {
    const sigma = sigmaSquared[age] ?? null;
    return sigma === null ? null : (sigma / (factors[age] ?? 1) ** 2) * (perSum + 1 / (seenAt[age] ?? 1));
  };
  const variances = triangle.map((row, index) => {
    let relative: number | null = 0;
    let sum = at(row, row.length - 1);
    for (let age = row.length - 1; age + 1 < ages; age += 1) {
      const more = added(age, sum > 0 ? 1 / sum : 0);
      relative = relative === null || more === null ? null : relative + more;
      sum *= factors[age] ?? 1;
    }
    return relative === null ? null : (ultimate[index] ?? 0) ** 2 * relative;
  });
  // Months share their factors, so their errors go together.
  const total = triangle.reduce<number | null>((variance, row, index) => {
    const own = variances[index] ?? null;
    if (variance === null || own === null) return null;
    const later = ultimate.slice(index + 1).reduce((sum, value) => sum + value, 0);
    let shared = 0;
    for (let age = row.length - 1; age + 1 < ages; age += 1) shared += 2 * ((sigmaSquared[age] ?? 0) / (factors[age] ?? 1) ** 2 / (seenAt[age] ?? 1));
    return variance + own + (ultimate[index] ?? 0) * later * shared;
  }, 0);
  return {
    factors,
    sigmaSquared,
    ultimate,
    reserve,
    totalReserve: reserve.reduce((sum, value) => sum + value, 0),
    standardErrors: variances.map((variance) => (variance === null ? null : Math.sqrt(variance))),
    totalStandardError: total === null ? null : Math.sqrt(total),
  };
}

/** Mack's rule where one month alone reached an age: the least of the two ages before and of their trend. */
function leastOf([before, last]: readonly (number | null)[]): number | null {
  if (before === undefined || before === null || last === undefined || last === null) return null;
  return before > 0 ? Math.min(last ** 2 / before, before, last) : 0;
}
