import gammaln from "@stdlib/math-base-special-gammaln";
import betaCdf from "@stdlib/stats-base-dists-beta-cdf";

/**
 * Exact chance of at least so many events where the expected count is itself only known so well: negative binomial, the
 * mixture of Poisson counts over a gamma of that mean and spread. With no spread it is the Poisson chance.
 *
 * Source: M. Greenwood and G. U. Yule (1920); tail by the incomplete beta function (from memory).
 *
 * @param relativeVariance square of the standard error of the expected count in parts of it
 * @example atLeastOfUncertain(8, 2, 0) // 0.0011, and 0.0081 where the expected count is known within a half
 * @throws when an argument is out of its range
 */
export function atLeastOfUncertain(count: number, expected: number, relativeVariance: number): number {
  if (!Number.isInteger(count) || count < 0) throw new Error("atLeastOfUncertain needs a whole count from 0");
  if (!(expected > 0 && Number.isFinite(expected))) throw new Error("atLeastOfUncertain needs an expected count above 0");
  if (!(relativeVariance >= 0)) throw new Error("atLeastOfUncertain needs a variance from 0");
  if (count === 0) return 1;
  // Beyond this the two differ by less than rounding.
  const shape = Math.min(1e9, 1 / relativeVariance);
  return betaCdf(expected / (shape + expected), count, shape);
}

/** Chances below this are not told apart. */
const LEAST_CHANCE = 1e-12;
/** Up to so many chances are computed beforehand; for larger counts each is looked for when it is asked for. */
const MOST_CHANCES = 5_000;

/**
 * What a test of such a count can come out with: of the chances of at least `from`, `from` + 1, ... events, the largest
 * that is not above a line.
 *
 * @example largestChanceUpTo(3, 1, 0)(0.05) // 0.0190: four events or more; three have 0.0803
 */
export function largestChanceUpTo(from: number, expected: number, relativeVariance: number): (line: number) => number {
  const reach = 30 * (expected * relativeVariance + Math.sqrt(expected * (1 + expected * relativeVariance)));
  const chances = reach < MOST_CHANCES ? chancesFrom(from, expected, relativeVariance) : null;
  const chanceOf = chances
    ? (more: number) => chances[more] ?? 0
    : (more: number) => atLeastOfUncertain(from + more, expected, relativeVariance);
  return (line) => {
    const least = Math.max(line, LEAST_CHANCE);
    // The chances fall, so the first at or under the line is the largest.
    let above = -1;
    let under = 0;
    for (let step = 1; chanceOf(under) > least; step *= 2) {
      above = under;
      under += step;
    }
    while (under - above > 1) {
      const middle = Math.floor((above + under) / 2);
      if (chanceOf(middle) <= least) under = middle;
      else above = middle;
    }
    return chanceOf(under);
  };
}

/** From one to the next by the ratio of two neighbouring probabilities. */
function chancesFrom(from: number, expected: number, relativeVariance: number): readonly number[] {
  const shape = Math.min(1e9, 1 / relativeVariance);
  let count = from;
  let atLeast = atLeastOfUncertain(from, expected, relativeVariance);
  // Of the two gamma functions of the shape only their ratio is taken: each alone has no digits left to lose.
  let logExactly = from * Math.log(expected / (1 + expected / shape)) - shape * Math.log1p(expected / shape) - gammaln(from + 1);
  for (let below = 0; below < from; below += 1) logExactly += Math.log1p(below / shape);
  const chances = [atLeast];
  while (atLeast >= LEAST_CHANCE && chances.length < 2 * MOST_CHANCES) {
    atLeast = Math.max(0, atLeast - Math.exp(logExactly));
    logExactly += Math.log((shape + count) / (count + 1)) + Math.log(expected / (shape + expected));
    count += 1;
    chances.push(atLeast);
    // What is left by then is rounding.
    if (count > expected && logExactly < Math.log(LEAST_CHANCE / 1000)) break;
  }
  return chances;
}
