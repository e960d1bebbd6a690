/** A test that can only come out in steps, as all tests of counts do. */
export interface DiscreteTest {
  pValue: number;
  /** The largest p-value up to `line` that it can come out with; 0 where it has none. */
  attainableUpTo(line: number): number;
}

/**
 * False discovery rates for tests of counts. A cell of which a twentieth of a claim is expected can hardly come out
 * below a small line by chance, so it should not cost the others as much as a full test: in Benjamini and Hochberg's
 * rule each test counts with the chance that it really has of falling under the line, instead of with the line itself.
 * Where nothing is wrong anywhere, the chance of any at or under `q` is at most `q`.
 *
 * Source: J. F. Heyse, "A false discovery rate procedure for categorical data" (2011), after P. B. Gilbert (2005) (both
 * from memory).
 *
 * @param highest rates above it are of no interest and are given as 1
 * @param discoveries which of the tests count as one each, where several of them tell of the same thing; all of them if not given
 * @returns in the order of the discoveries
 * @example two tests, 0.01 of a p-value each, the second attaining 0.004 below it at most: 0.014 and 0.007 for both
 */
export function discreteFalseDiscoveryRates(tests: readonly DiscreteTest[], highest: number, discoveries: readonly { pValue: number }[] = tests): readonly number[] {
  const rates = discoveries.map(() => 1);
  const candidates = discoveries
    .map(({ pValue }, index) => ({ pValue, index }))
    .filter(({ pValue }) => pValue <= highest)
    .sort((a, b) => a.pValue - b.pValue);
  const expectedFalse: number[] = [];
  for (const { pValue } of candidates) {
    const expected = tests.reduce((sum, test) => sum + test.attainableUpTo(pValue), 0);
    // It only grows from here: no later candidate can come under the line, not even with all the others.
    if (expected > highest * candidates.length) break;
    expectedFalse.push(expected);
  }
  let least = 1;
  for (let rank = expectedFalse.length; rank >= 1; rank -= 1) {
    least = Math.min(least, (expectedFalse[rank - 1] ?? 1) / rank);
    const candidate = candidates[rank - 1];
    if (candidate) rates[candidate.index] = least;
  }
  return rates;
}
