/**
 * Adjusted p-values under which the expected share of false ones among all that are called signals stays at or below the
 * line they are held against, however many cells were looked at. Keeps the order given.
 *
 * Source: Y. Benjamini and Y. Hochberg, "Controlling the false discovery rate", JRSS B 57 (1995), for independent or
 * positively dependent tests (from memory; checked against R's p.adjust).
 *
 * @example falseDiscoveryRates([0.01, 0.04, 0.03]) // [0.03, 0.04, 0.04]
 * @throws when a p-value lies outside 0 to 1
 */
export function falseDiscoveryRates(pValues: readonly number[]): readonly number[] {
  if (!pValues.every((pValue) => pValue >= 0 && pValue <= 1)) throw new Error("falseDiscoveryRates needs p-values from 0 to 1");
  const largestFirst = pValues.map((pValue, index) => ({ pValue, index })).sort((a, b) => b.pValue - a.pValue);
  const adjusted = pValues.map(() => 1);
  let least = 1;
  largestFirst.forEach(({ pValue, index }, rank) => {
    least = Math.min(least, (pValue * pValues.length) / (pValues.length - rank));
    adjusted[index] = least;
  });
  return adjusted;
}
