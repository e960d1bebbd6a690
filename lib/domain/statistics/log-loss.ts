import { needForecasts, type Outcome } from "./brier-score";

/** A forecast of 0 for what happened would cost infinitely much; it costs what this probability costs, 34.5. */
export const LOG_LOSS_CLIP = 1e-15;

/**
 * Log loss: the mean surprise at what happened, in natural log. It punishes being sure and wrong above all; 0 is
 * perfect, and 0.693 is what saying one half every time costs.
 *
 * Source: I. J. Good, "Rational decisions", JRSS B 14 (1952), from memory. The clip applies to the probability of what
 * happened, and is stated wherever the figure is.
 *
 * @param outcomes 1 where it happened, 0 where it did not
 * @example logLoss([0.8, 0.3], [1, 0]) // (0.2231 + 0.3567) / 2 = 0.2899
 * @throws without a forecast, or with one outside 0..1
 */
export function logLoss(probabilities: readonly number[], outcomes: readonly Outcome[], clip: number = LOG_LOSS_CLIP): number {
  needForecasts("logLoss", probabilities, outcomes);
  const losses = probabilities.map((probability, place) => -Math.log(Math.max(clip, outcomes[place] === 1 ? probability : 1 - probability)));
  return losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
}
