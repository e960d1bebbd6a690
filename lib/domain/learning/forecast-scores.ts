import type { CauseCode } from "../diagnosis/knowledge";
import { areaUnderRoc, LEAST_FOR_LIMITS } from "../statistics/area-under-roc";
import { brierDecomposition, type Outcome } from "../statistics/brier-score";
import { type CalibrationRegression, calibrationRegression } from "../statistics/calibration-slope";
import { logLoss } from "../statistics/log-loss";
import { multiClassScores } from "../statistics/multi-class-scores";
import type { Interval } from "../statistics/poisson-interval";
import { type ReliabilityBin, reliabilityCurve } from "../statistics/reliability-curve";
import { spiegelhalterZ } from "../statistics/spiegelhalter-z";

export const RELIABILITY_BINS = 10;
export const CONFIDENCE = 0.95;

/** What was said of one claim, and what it then turned out to be. */
export interface ScoredVerdict {
  causes: readonly CauseCode[];
  /** Of each cause, in their order. */
  probabilities: readonly number[];
  unitDefective: number;
  primary: CauseCode;
  /** The primary cause among them. */
  present: ReadonlySet<CauseCode>;
  isUnit: boolean;
}

/** The figures of one verdict whose means are the scores: what a bootstrap draws from. */
export interface VerdictScores {
  /** Over the causes, each there or not. */
  logLoss: number;
  brier: number;
  /** 1 where the primary cause led. */
  led: number;
  /** 1 over the place of the primary cause in the ranking. */
  reciprocalRank: number;
  /** Over the causes as classes of which the primary one is true; probabilities divided by their sum. */
  multiClassBrier: number;
  multiClassLogLoss: number;
  unitBrier: number;
}

const outcomesOf = ({ causes, present }: ScoredVerdict) => causes.map((code): Outcome => (present.has(code) ? 1 : 0));
const normalised = ({ probabilities }: ScoredVerdict) => {
  const sum = probabilities.reduce((total, probability) => total + probability, 0);
  return probabilities.map((probability) => probability / sum);
};

/** Scores of one verdict. Of equal probabilities the true cause is taken to stand last: no luck. */
export function scoresOfVerdict(verdict: ScoredVerdict): VerdictScores {
  const { causes, probabilities, primary, unitDefective, isUnit } = verdict;
  const truth = causes.indexOf(primary);
  const rank = probabilities.filter((probability, place) => place === truth || probability >= (probabilities[truth] ?? 0)).length;
  const outcomes = outcomesOf(verdict);
  const classes = multiClassScores([normalised(verdict)], [truth]);
  return {
    logLoss: logLoss(probabilities, outcomes),
    brier: outcomes.reduce<number>((sum, outcome, place) => sum + ((probabilities[place] ?? 0) - outcome) ** 2, 0) / outcomes.length,
    led: rank === 1 ? 1 : 0,
    reciprocalRank: 1 / rank,
    multiClassBrier: classes.brier,
    multiClassLogLoss: classes.logLoss,
    unitBrier: (unitDefective - (isUnit ? 1 : 0)) ** 2,
  };
}

export interface ForecastScores extends VerdictScores {
  verdicts: number;
  /** Murphy's decomposition of the Brier score of what is shown, whole per cent. */
  reliability: number;
  resolution: number;
  uncertainty: number;
  /** Share of the Brier score taken away from saying every time how often each cause is named; null without that. */
  skill: number | null;
  calibration: CalibrationRegression | null;
  spiegelhalter: { z: number; pValue: number } | null;
  expectedCalibrationError: number;
  bins: readonly ReliabilityBin[];
  /** How well units that proved defective are told from others; no limits below ten of either. */
  unitAuc: (Interval & { hasLimits: boolean }) | null;
}

/**
 * Scores of an edition over many verdicts: each cause of each claim is one forecast, that it is there; it was there where
 * the verdict names it, as primary or contributing. Forecasts of one claim hang together, so that limits over claims are
 * drawn by claim.
 *
 * @param shares how often each cause is named, from verdicts other than these; null where none are known
 * @throws without a verdict
 */
export function forecastScores(verdicts: readonly ScoredVerdict[], shares: ReadonlyMap<CauseCode, number> | null): ForecastScores {
  const means = meanScores(verdicts.map(scoresOfVerdict));
  const probabilities = verdicts.flatMap((verdict) => verdict.probabilities);
  const outcomes = verdicts.flatMap(outcomesOf);
  const { reliability, resolution, uncertainty } = brierDecomposition(probabilities.map((probability) => Math.round(100 * probability) / 100), outcomes);
  const { bins, expectedCalibrationError } = reliabilityCurve(probabilities, outcomes, RELIABILITY_BINS, CONFIDENCE);
  const bySharesAlone = shares && brierOfShares(verdicts, shares);
  const units = verdicts.map(({ isUnit }): Outcome => (isUnit ? 1 : 0));
  const defective = units.filter((outcome) => outcome === 1).length;
  const area = areaUnderRoc(verdicts.map(({ unitDefective }) => unitDefective), units, CONFIDENCE);
  return {
    ...means,
    verdicts: verdicts.length,
    reliability,
    resolution,
    uncertainty,
    skill: bySharesAlone ? 1 - means.brier / bySharesAlone : null,
    calibration: calibrationRegression(probabilities, outcomes),
    spiegelhalter: spiegelhalterZ(probabilities, outcomes),
    expectedCalibrationError,
    bins,
    unitAuc: area && { ...area, hasLimits: Math.min(defective, units.length - defective) >= LEAST_FOR_LIMITS },
  };
}

function meanScores(scores: readonly VerdictScores[]): VerdictScores {
  const mean = (name: keyof VerdictScores) => scores.reduce((sum, one) => sum + one[name], 0) / scores.length;
  return {
    logLoss: mean("logLoss"),
    brier: mean("brier"),
    led: mean("led"),
    reciprocalRank: mean("reciprocalRank"),
    multiClassBrier: mean("multiClassBrier"),
    multiClassLogLoss: mean("multiClassLogLoss"),
    unitBrier: mean("unitBrier"),
  };
}

function brierOfShares(verdicts: readonly ScoredVerdict[], shares: ReadonlyMap<CauseCode, number>): number {
  const squares = verdicts.flatMap((verdict) => outcomesOf(verdict).map((outcome, place) => ((shares.get(verdict.causes[place] ?? "") ?? 0) - outcome) ** 2));
  return squares.reduce((sum, square) => sum + square, 0) / squares.length;
}
