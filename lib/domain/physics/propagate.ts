import { type Lognormal, lognormal } from "./estimate";

/**
 * Propagates spreads through a formula whose inputs multiply: the result is lognormal about the formula at the medians,
 * and each input adds the square of half of what it moves the logarithm between one spread below and one above.
 *
 * Exact for products of powers, which laminar flow is; near it through the turbulent change.
 * Source: JCGM 100 (GUM) 5.1.3, the numerical form of the law of propagation (from memory), taken in logarithms.
 * Example: a capacity that goes with the fourth power of a bore good to 5 % is good to 20 %.
 */
export function propagate(formula: (...inputs: number[]) => number, inputs: readonly Lognormal[]): Lognormal {
  const medians = inputs.map(({ median }) => median);
  const logAt = (place: number, factor: number) =>
    Math.log(formula(...medians.map((median, i) => (i === place ? median * factor : median))));
  const variance = inputs.reduce((sum, { logSpread }, place) => {
    const moved = (logAt(place, Math.exp(logSpread)) - logAt(place, Math.exp(-logSpread))) / 2;
    return sum + moved ** 2;
  }, 0);
  return lognormal(formula(...medians), Math.sqrt(variance));
}
