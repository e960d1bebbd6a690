import type { CauseCode, Edition } from "../diagnosis/knowledge";
import type { Observation } from "../diagnosis/observation";
import { bootstrapMean, type RandomNumber } from "../statistics/bootstrap-interval";
import type { Interval } from "../statistics/poisson-interval";
import { forecast } from "./forecast";
import { CONFIDENCE, type ForecastScores, forecastScores, type ScoredVerdict, scoresOfVerdict, type VerdictScores } from "./forecast-scores";
import type { TrainingExample } from "./training-example";

/** What an edition is given to judge by: what the claim was filed with, all that the customer told, all that was found. */
export const VIEWS = ["first contact", "customer's word", "all findings"] as const;
export type View = (typeof VIEWS)[number];

/** Measures that are compared; the larger the better for the last two of them. */
export const MEASURES = ["logLoss", "brier", "multiClassLogLoss", "multiClassBrier", "unitBrier", "led", "reciprocalRank"] as const satisfies readonly (keyof VerdictScores)[];
export type Measure = (typeof MEASURES)[number];
export const LARGER_IS_BETTER: ReadonlySet<Measure> = new Set<Measure>(["led", "reciprocalRank"]);

const RESAMPLES = 1000;

export interface ViewResult {
  view: View;
  before: ForecastScores;
  after: ForecastScores;
  /** After minus before, with the limits of a bootstrap over verdicts. */
  differences: Readonly<Record<Measure, Interval>>;
}

/** A backtest under way: what both editions said of each later verdict. */
export interface Backtest {
  before: Edition;
  after: Edition;
  scored: Readonly<Record<View, { before: ScoredVerdict[]; after: ScoredVerdict[] }>>;
}

export function startBacktest(before: Edition, after: Edition): Backtest {
  const none = () => ({ before: [], after: [] });
  return { before, after, scored: { "first contact": none(), "customer's word": none(), "all findings": none() } };
}

function seenIn(view: View, { firstContact, later }: TrainingExample): readonly Observation[] {
  if (view === "first contact") return firstContact;
  const all = [...firstContact, ...later];
  return view === "all findings" ? all : all.filter(({ observer }) => observer === "customer");
}

/**
 * Lets both editions judge a verdict that neither has learned from. One that names a cause which an edition does not know
 * cannot be scored.
 *
 * @returns whether it was scored
 */
export function scoreLaterVerdict({ before, after, scored }: Backtest, example: TrainingExample): boolean {
  const knows = ({ causes }: Edition) => causes.some(({ code }) => code === example.primary);
  if (!knows(before) || !knows(after)) return false;
  for (const view of VIEWS) {
    const observations = seenIn(view, example);
    scored[view].before.push(judged(observations, before, example));
    scored[view].after.push(judged(observations, after, example));
  }
  return true;
}

function judged(observations: readonly Observation[], edition: Edition, { primary, contributing, kit, vehicle }: TrainingExample): ScoredVerdict {
  const { probabilities, unitDefective } = forecast(observations, edition, { kit, vehicle });
  const isUnit = edition.causes.some(({ code, attribution }) => code === primary && attribution === "unit");
  return { causes: edition.causes.map(({ code }) => code), probabilities, unitDefective, primary, present: new Set([primary, ...contributing]), isUnit };
}

/**
 * What a backtest found, view by view: scores of the edition in force and of the proposed one on the same later
 * verdicts, and each difference with the interval of a bootstrap over verdicts (1,000 draws). Empty without a verdict.
 *
 * @param shares how often each cause was named among the earlier verdicts: what skill is measured against
 */
export function backtestResult({ scored }: Backtest, shares: ReadonlyMap<CauseCode, number>, random: RandomNumber): ViewResult[] {
  return VIEWS.flatMap((view): ViewResult[] => {
    const { before, after } = scored[view];
    if (before.length === 0) return [];
    const [was, is] = [before.map(scoresOfVerdict), after.map(scoresOfVerdict)];
    const difference = (measure: Measure) => bootstrapMean(is.map((scores, place) => scores[measure] - (was[place]?.[measure] ?? 0)), CONFIDENCE, RESAMPLES, random);
    return [
      {
        view,
        before: forecastScores(before, shares),
        after: forecastScores(after, shares),
        differences: {
          logLoss: difference("logLoss"),
          brier: difference("brier"),
          multiClassLogLoss: difference("multiClassLogLoss"),
          multiClassBrier: difference("multiClassBrier"),
          unitBrier: difference("unitBrier"),
          led: difference("led"),
          reciprocalRank: difference("reciprocalRank"),
        },
      },
    ];
  });
}

/** Whether the difference speaks for the proposed edition, against it, or may be chance. */
export function readDifference(measure: Measure, { lower, upper }: Interval): "better" | "worse" | "may be chance" {
  if (lower <= 0 && upper >= 0) return "may be chance";
  return lower > 0 === LARGER_IS_BETTER.has(measure) ? "better" : "worse";
}

/** What is kept of a backtest with the edition it was made for. */
export interface BacktestReport {
  /** Verdicts before this day taught the edition, those from then on scored it. ISO, with time. */
  splitAt: string;
  learnedFrom: number;
  scored: number;
  views: readonly ViewResult[];
}

/** The share of earlier verdicts that may teach; the later ones score. */
export const SHARE_TO_LEARN_FROM = 0.8;
/** With fewer to learn from nothing is proposed; with fewer to score by neither. */
export const LEAST_TO_LEARN_FROM = 40;
export const LEAST_TO_SCORE = 10;
