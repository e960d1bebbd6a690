import { betaInterval } from "./beta-update";
import type { Interval } from "./poisson-interval";

export interface Share extends Interval {
  variance: number;
}

/**
 * Shares of several classes that exclude each other, after counting: each class's counts are added to what was believed
 * before. Seen alone, the share of one class is a Beta of its own count and all the others'.
 *
 * Source: the conjugate prior of the multinomial, any textbook, from memory; checked against R.
 *
 * @example dirichletUpdate([1, 1], [3, 0], 0.95) // means 4 / 5 and 1 / 5
 * @throws where the lists differ in length or a prior count is not above 0
 */
export function dirichletUpdate(prior: readonly number[], counts: readonly number[], confidence: number): readonly Share[] {
  if (prior.length === 0 || prior.length !== counts.length) throw new Error("dirichletUpdate needs a count for each of its classes");
  if (!prior.every((count) => count > 0)) throw new Error("dirichletUpdate needs a prior with counts above 0");
  const after = prior.map((count, place) => count + (counts[place] ?? 0));
  const total = after.reduce((sum, count) => sum + count, 0);
  return after.map((count) => {
    const interval = betaInterval({ alpha: count, beta: total - count }, confidence);
    return { ...interval, variance: (interval.estimate * (1 - interval.estimate)) / (total + 1) };
  });
}
