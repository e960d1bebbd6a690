import { normalPValue } from "./normal";
import { type Lifetime, timesOfFailure, unitsOf } from "./lifetimes";

export interface LogRank {
  observed: readonly [number, number];
  expected: readonly [number, number];
  chiSquare: number;
  pValue: number;
}

/**
 * Whether two groups of units fail differently over time: at each failure, how many each group should have had by its
 * share of the units at risk.
 *
 * Source: N. Mantel (1966) (from memory; checked against survdiff in R).
 *
 * @returns null where there is nothing to compare: no failure, or never units of both groups at risk
 */
export function logRankTest(first: readonly Lifetime[], second: readonly Lifetime[]): LogRank | null {
  let observed = 0;
  let expected = 0;
  let total = 0;
  let variance = 0;
  // Both lists are walked through once, in the order of time.
  const firstByTime = first.toSorted((a, b) => a.time - b.time);
  let place = 0;
  let watched = firstByTime.reduce((sum, lifetime) => sum + unitsOf(lifetime), 0);
  for (const { time, atRisk, failures } of timesOfFailure([...first, ...second])) {
    for (let next = firstByTime[place]; next && next.time < time; next = firstByTime[place]) {
      watched -= unitsOf(next);
      place += 1;
    }
    const share = watched / atRisk;
    for (let here = place; firstByTime[here]?.time === time; here += 1) {
      const lifetime = firstByTime[here];
      if (lifetime?.failed) observed += unitsOf(lifetime);
    }
    total += failures;
    expected += failures * share;
    if (atRisk > 1) variance += (failures * share * (1 - share) * (atRisk - failures)) / (atRisk - 1);
  }
  if (!(variance > 0)) return null;
  const chiSquare = (observed - expected) ** 2 / variance;
  return { observed: [observed, total - observed], expected: [expected, total - expected], chiSquare, pValue: normalPValue(Math.sqrt(chiSquare)) };
}
