export interface WatchedUnit {
  /** Ages at which something happened. */
  events: readonly number[];
  /** Age up to which it was watched. */
  watchedTo: number;
}

export interface MeanCumulativeStep {
  age: number;
  atRisk: number;
  /** Events per unit up to this age: a mean, not a chance, so it may exceed 1. */
  mean: number;
  standardError: number;
}

/**
 * Mean number of claims per unit up to each age, where a unit may have several.
 *
 * Source: W. Nelson (1988, 2003); variance of J. F. Lawless and C. Nadeau, Technometrics 37 (1995) (from memory; checked
 * against survfit in R).
 *
 * @example meanCumulativeFunction([{ watchedTo: 760, events: [340, 702] }, { watchedTo: 520, events: [] }])
 */
export function meanCumulativeFunction(units: readonly WatchedUnit[]): readonly MeanCumulativeStep[] {
  const ages = [...new Set(units.flatMap(({ events, watchedTo }) => events.filter((age) => age <= watchedTo)))].sort((a, b) => a - b);
  const deviations = units.map(() => 0);
  let mean = 0;
  return ages.map((age) => {
    const atRisk = units.filter(({ watchedTo }) => watchedTo >= age).length;
    const here = units.map(({ events, watchedTo }) => (watchedTo >= age ? events.filter((event) => event === age).length : 0));
    const increase = here.reduce((sum, events) => sum + events, 0) / atRisk;
    mean += increase;
    units.forEach(({ watchedTo }, index) => {
      if (watchedTo >= age) deviations[index] = (deviations[index] ?? 0) + ((here[index] ?? 0) - increase) / atRisk;
    });
    return { age, atRisk, mean, standardError: Math.sqrt(deviations.reduce((sum, deviation) => sum + deviation ** 2, 0)) };
  });
}
