import { needForecasts, type Outcome } from "./brier-score";

export interface CalibrationRegression {
  /** 1 is right; below 1 the forecasts are too sure, above 1 too timid. */
  slope: number;
  interceptWithSlope: number;
  /** Intercept with the slope held at 1: above 0 the forecasts are too low on the whole. */
  calibrationInTheLarge: number;
}

/** A forecast of 0 or 1 has no log-odds; it counts as this close to it. */
const CLIP = 1e-9;
const MOST_STEPS = 50;

const logistic = (logOdds: number) => 1 / (1 + Math.exp(-logOdds));

/**
 * Calibration slope and intercept: a logistic regression of what happened on the log-odds of the forecasts.
 *
 * Source: D. R. Cox, "Two further applications of a model for binary regression", Biometrika 45 (1958), from memory;
 * checked against R's glm.
 *
 * @returns null where the regression has no maximum: everything or nothing happened, all forecasts are alike, or they
 * part the outcomes without a mistake
 * @example forecasts of 0.9 and 0.1 of which 8 in 10 and 2 in 10 come true have a slope of 1.386 / 2.197 = 0.63
 * @throws without a forecast, or with one outside 0..1
 */
export function calibrationRegression(probabilities: readonly number[], outcomes: readonly Outcome[]): CalibrationRegression | null {
  needForecasts("calibrationRegression", probabilities, outcomes);
  const logOdds = probabilities.map((probability) => {
    const kept = Math.min(1 - CLIP, Math.max(CLIP, probability));
    return Math.log(kept / (1 - kept));
  });
  const happened = outcomes.reduce<number>((sum, outcome) => sum + outcome, 0);
  if (happened === 0 || happened === outcomes.length) return null;

  let shift = 0;
  for (let step = 0; step < MOST_STEPS; step++) {
    const fitted = logOdds.map((value) => logistic(value + shift));
    const change = (happened - fitted.reduce((sum, p) => sum + p, 0)) / fitted.reduce((sum, p) => sum + p * (1 - p), 0);
    shift += Math.min(2, Math.max(-2, change));
    if (Math.abs(change) < 1e-13) break;
  }

  let intercept = shift;
  let slope = 1;
  for (let step = 0; step < MOST_STEPS; step++) {
    let [g0, g1, h00, h01, h11] = [0, 0, 0, 0, 0];
    logOdds.forEach((value, place) => {
      const p = logistic(intercept + slope * value);
      const rest = (outcomes[place] ?? 0) - p;
      const weight = p * (1 - p);
      g0 += rest;
      g1 += rest * value;
      h00 += weight;
      h01 += weight * value;
      h11 += weight * value * value;
    });
    const determinant = h00 * h11 - h01 * h01;
    if (!(determinant > 1e-12 * h00 * h11)) return null;
    const changes = [(h11 * g0 - h01 * g1) / determinant, (h00 * g1 - h01 * g0) / determinant] as const;
    // A long step from a poor start would overshoot.
    const damping = Math.min(1, 2 / Math.max(...changes.map(Math.abs), 1e-300));
    intercept += damping * changes[0];
    slope += damping * changes[1];
    if (Math.max(...changes.map(Math.abs)) < 1e-12) return { slope, interceptWithSlope: intercept, calibrationInTheLarge: shift };
  }
  return null;
}
