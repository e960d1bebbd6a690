/** A count whose probability rises up to its mode and falls beyond it. */
export interface CountDistribution {
  /** Natural logarithm of the probability of a count from 0 to `largest`. */
  logProbability(count: number): number;
  mode: number;
  /** Infinity where the count has no bound. */
  largest: number;
}

/**
 * Two-sided exact p-value of a count: the probability of all counts no more likely than the one seen. Of the several
 * definitions in use this is the one of R's binom.test and poisson.test, with their slack for rounding of 1e-7.
 *
 * Each side is summed outward from its edge until terms no longer count, so large counts cost little.
 */
export function minimumLikelihoodPValue(observed: number, distribution: CountDistribution): number {
  const { logProbability, mode, largest } = distribution;
  const asLikely = logProbability(observed) + Math.log1p(1e-7);
  const isOutside = (count: number) => logProbability(count) <= asLikely;
  if (isOutside(mode)) return 1;
  // Walk away from the mode in doubling steps, then halve: beyond the mode the probability only falls.
  const firstOutside = (towards: 1 | -1, end: number): number | null => {
    let inside = 0;
    let step = 1;
    while (step < end && !isOutside(mode + towards * step)) {
      inside = step;
      step *= 2;
    }
    let outside = Math.min(step, end);
    if (outside < 1 || !isOutside(mode + towards * outside)) return null;
    while (outside - inside > 1) {
      const middle = Math.floor((inside + outside) / 2);
      if (isOutside(mode + towards * middle)) outside = middle;
      else inside = middle;
    }
    return mode + towards * outside;
  };
  const above = firstOutside(1, largest - mode);
  const below = firstOutside(-1, mode);
  return Math.min(1, (above === null ? 0 : tailFrom(above, 1, distribution)) + (below === null ? 0 : tailFrom(below, -1, distribution)));
}

/**
 * Probability of this count and all further from the mode.
 *
 * @param start a count on that side of the mode
 */
function tailFrom(start: number, towards: 1 | -1, { logProbability, largest }: CountDistribution): number {
  let total = 0;
  for (let count = start; count >= 0 && count <= largest; count += towards) {
    const term = Math.exp(logProbability(count));
    total += term;
    if (term <= total * 1e-17) break;
  }
  return total;
}
