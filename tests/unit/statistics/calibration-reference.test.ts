import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { areaUnderRoc } from "@/lib/domain/statistics/area-under-roc";
import { betaBinomialFit } from "@/lib/domain/statistics/beta-binomial-fit";
import { betaAbove, betaInterval, betaUpdate } from "@/lib/domain/statistics/beta-update";
import { brierDecomposition, type Outcome } from "@/lib/domain/statistics/brier-score";
import { calibrationRegression } from "@/lib/domain/statistics/calibration-slope";
import { logLoss } from "@/lib/domain/statistics/log-loss";
import { multiClassScores } from "@/lib/domain/statistics/multi-class-scores";
import { fitNoisyOrLinks } from "@/lib/domain/statistics/noisy-or-links";
import { type Counts, pooledBeta } from "@/lib/domain/statistics/pooled-beta";
import { reliabilityCurve } from "@/lib/domain/statistics/reliability-curve";
import { spiegelhalterZ } from "@/lib/domain/statistics/spiegelhalter-z";

type Inputs = Record<string, unknown>;
interface Case {
  id: string;
  method: string;
  inputs: Inputs;
  expected: Record<string, unknown>;
  tolerance: { rel?: number; abs: number };
}

// Computed in R 4.2.2 and most of it again in Python with scipy; the file names the source of each case and its
// tolerance, which covers the digits those programs print.
const { cases } = JSON.parse(readFileSync(new URL("../../reference/statistics.json", import.meta.url), "utf8")) as { cases: Case[] };

const forecasts = ({ probabilities, outcomes }: Inputs) => [probabilities as number[], outcomes as Outcome[]] as const;

/** How we answer each method, in the words of the file. */
const ANSWERS: Readonly<Record<string, (inputs: Inputs) => unknown>> = {
  log_loss: (inputs) => ({ logLoss: logLoss(...forecasts(inputs), inputs.clip as number) }),
  brier_decomposition: (inputs) => brierDecomposition(...forecasts(inputs)),
  calibration_error: (inputs) => {
    const { bins, ...errors } = reliabilityCurve(...forecasts(inputs), inputs.bins as number, 0.95);
    return { ...errors, bins: bins.map(({ bin, count, meanProbability, share }) => ({ bin, count, meanProbability, meanOutcome: share.estimate })) };
  },
  calibration_regression: (inputs) => calibrationRegression(...forecasts(inputs)),
  calibration_test: (inputs) => spiegelhalterZ(...forecasts(inputs)),
  auc: ({ scores, outcomes, confidence }) => {
    const area = areaUnderRoc(scores as number[], outcomes as Outcome[], confidence as number);
    return area ? { auc: area.estimate, deLongLower: area.lower, deLongUpper: area.upper } : { auc: null };
  },
  multiclass_scores: ({ probabilities, trueClass }) => multiClassScores(probabilities as number[][], trueClass as number[]),
  beta_update: ({ priorAlpha, priorBeta, successes, failures, interval }) => {
    const after = betaUpdate({ alpha: priorAlpha as number, beta: priorBeta as number }, successes as number, failures as number);
    const { estimate, lower, upper } = betaInterval(after, interval as number);
    return { mean: estimate, lower, upper, probabilityAbove: { threshold: 0.2, value: betaAbove(after, 0.2) } };
  },
  pooled_beta: ({ globalPrior, strengthKit, strengthCell, kit, cell }) => {
    const [alpha = 0, beta = 0] = globalPrior as number[];
    const kitMean = betaInterval(pooledBeta(alpha / (alpha + beta), strengthKit as number, kit as Counts), 0.95).estimate;
    const { estimate, lower, upper } = betaInterval(pooledBeta(kitMean, strengthCell as number, cell as Counts), 0.95);
    return { kitMean, cellMean: estimate, cellLower: lower, cellUpper: upper };
  },
  beta_binomial_fit: ({ successes, trials }) => {
    const groups = (successes as number[]).map((x, place) => ({ successes: x, trials: (trials as number[])[place] ?? 0 }));
    const fit = betaBinomialFit(groups);
    if (!fit) return null;
    const { alpha, beta, logLikelihood } = fit;
    const mean = alpha / (alpha + beta);
    const posteriorMeans = groups.map((group) => betaInterval(pooledBeta(mean, alpha + beta, group), 0.95).estimate);
    return { alpha, beta, priorMean: mean, logLikelihood, posteriorMeans };
  },
  noisy_or_link_mle: ({ causes, rows }) => {
    const names = causes as string[];
    const counted = (rows as { causesPresent: string[]; findingPresent: number; findingAbsent: number }[]).map(({ causesPresent, findingPresent, findingAbsent }) => ({
      causes: causesPresent.map((name) => names.indexOf(name)),
      present: findingPresent,
      absent: findingAbsent,
    }));
    const { links, ...rest } = fitNoisyOrLinks(counted, names.length);
    return { ...rest, links: Object.fromEntries(names.map((name, place) => [name, links[place]])) };
  },
};

function expectSame(got: unknown, expected: unknown, { rel = 0, abs }: Case["tolerance"], at: string): void {
  if (typeof expected === "number") {
    expect(typeof got, at).toBe("number");
    expect(Math.abs((got as number) - expected), `${at}: ${got} for ${expected}`).toBeLessThanOrEqual(Math.max(abs, rel * Math.abs(expected)));
  } else if (expected !== null && typeof expected === "object") {
    for (const [name, value] of Object.entries(expected)) expectSame((got as Inputs)[name], value, { rel, abs }, `${at}.${name}`);
    if (Array.isArray(expected)) expect((got as unknown[]).length, at).toBe(expected.length);
  } else expect(got, at).toBe(expected);
}

describe("calibration and learning agree with R and scipy", () => {
  const ours = cases.filter(({ method }) => method in ANSWERS);

  it("in every case of their eleven methods", () => {
    expect(new Set(ours.map(({ method }) => method))).toEqual(new Set(Object.keys(ANSWERS)));
    expect(ours).toHaveLength(13);
  });

  it.each(ours.map((given) => [given.id, given] as const))("%s", (_id, { method, inputs, expected, tolerance }) => {
    expectSame(ANSWERS[method]?.(inputs), expected, tolerance, method);
  });
});
