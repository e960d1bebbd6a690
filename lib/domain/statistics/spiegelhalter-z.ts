import erfc from "@stdlib/math-base-special-erfc";
import { needForecasts, type Outcome } from "./brier-score";

/**
 * Spiegelhalter's z: whether the Brier score is farther from what it should be, if every forecast were right, than
 * chance explains. Beyond 1.96 either way it is not.
 *
 * Source: D. J. Spiegelhalter, "Probabilistic prediction in patient management and clinical trials", Statistics in
 * Medicine 5:421-433 (1986), from memory; checked against R.
 *
 * @returns null where every forecast is 0, one half or 1, of which it cannot judge
 * @example spiegelhalterZ([0.9, 0.9, 0.9], [1, 1, 0]) // z = 0.56 / sqrt(0.1728) = 1.35: no ground for doubt
 * @throws without a forecast, or with one outside 0..1
 */
export function spiegelhalterZ(probabilities: readonly number[], outcomes: readonly Outcome[]): { z: number; pValue: number } | null {
  needForecasts("spiegelhalterZ", probabilities, outcomes);
  let excess = 0;
  let variance = 0;
  probabilities.forEach((probability, place) => {
    excess += ((outcomes[place] ?? 0) - probability) * (1 - 2 * probability);
    variance += (1 - 2 * probability) ** 2 * probability * (1 - probability);
  });
  if (variance === 0) return null;
  const z = excess / Math.sqrt(variance);
  return { z, pValue: erfc(Math.abs(z) / Math.SQRT2) };
}
