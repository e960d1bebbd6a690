import { LOG_LOSS_CLIP } from "./log-loss";

export interface MultiClassScores {
  /** Squared distance summed over the classes, so that it lies in 0..2, and averaged over the cases. */
  brier: number;
  logLoss: number;
  /** Share of cases whose true class had the highest probability; the first of equals. */
  topOneAccuracy: number;
}

/**
 * Scores of forecasts over several classes of which one is true.
 *
 * Source: G. W. Brier (1950), Monthly Weather Review 78, in his own form that sums over the classes, from memory;
 * checked against R.
 *
 * @param probabilities per case one for each class, summing to 1
 * @param trueClass per case the place of the class that was true
 * @example multiClassScores([[0.7, 0.2, 0.1]], [0]) // brier 0.09 + 0.04 + 0.01 = 0.14, log loss 0.357
 * @throws without a case, or where the true class is not among the classes
 */
export function multiClassScores(probabilities: readonly (readonly number[])[], trueClass: readonly number[]): MultiClassScores {
  if (probabilities.length === 0) throw new Error("multiClassScores needs at least one case");
  let [brier, logLoss, led] = [0, 0, 0];
  probabilities.forEach((forecast, place) => {
    const is = trueClass[place];
    const probability = is === undefined ? undefined : forecast[is];
    if (probability === undefined) throw new Error("multiClassScores needs a true class for each case");
    brier += forecast.reduce((sum, each, index) => sum + (each - (index === is ? 1 : 0)) ** 2, 0);
    logLoss -= Math.log(Math.max(LOG_LOSS_CLIP, probability));
    if (forecast.indexOf(Math.max(...forecast)) === is) led += 1;
  });
  const count = probabilities.length;
  return { brier: brier / count, logLoss: logLoss / count, topOneAccuracy: led / count };
}
