import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { forecastByAge } from "@/lib/domain/statistics/age-rate-forecast";
import { chainLadder } from "@/lib/domain/statistics/chain-ladder";
import { exactShareInterval } from "@/lib/domain/statistics/clopper-pearson-interval";
import { cohenKappa } from "@/lib/domain/statistics/cohen-kappa";
import { costOfQuality, type QualityCost } from "@/lib/domain/statistics/cost-of-quality";
import { cumulativeHazard } from "@/lib/domain/statistics/cumulative-hazard";
import { cusum } from "@/lib/domain/statistics/cusum";
import { ewmaChart, widestReach } from "@/lib/domain/statistics/ewma-chart";
import { boundWithoutFailure, meanTimeBetweenFailures } from "@/lib/domain/statistics/exponential-rate";
import { falseDiscoveryRates } from "@/lib/domain/statistics/false-discovery";
import { fleissKappa } from "@/lib/domain/statistics/fleiss-kappa";
import { chanceAbove, shrunkenRate } from "@/lib/domain/statistics/gamma-poisson";
import { fitGammaPoisson } from "@/lib/domain/statistics/gamma-poisson-fit";
import { homogeneity } from "@/lib/domain/statistics/homogeneity";
import type { Lifetime } from "@/lib/domain/statistics/lifetimes";
import { logRankTest } from "@/lib/domain/statistics/log-rank-test";
import { meanCumulativeFunction } from "@/lib/domain/statistics/mean-cumulative-function";
import { differenceOfShares } from "@/lib/domain/statistics/newcombe-difference";
import { pareto } from "@/lib/domain/statistics/pareto";
import { poissonCusum } from "@/lib/domain/statistics/poisson-cusum";
import { poissonInterval } from "@/lib/domain/statistics/poisson-interval";
import { poissonTest } from "@/lib/domain/statistics/poisson-rate-test";
import { poissonTrend } from "@/lib/domain/statistics/poisson-trend";
import { rateRatio, rateRatioOfLargeCounts } from "@/lib/domain/statistics/rate-ratio";
import { adjustForDelay } from "@/lib/domain/statistics/reporting-delay";
import { cusumRunLength, ewmaRunLength } from "@/lib/domain/statistics/run-length";
import { expectedCount, standardisedRatio } from "@/lib/domain/statistics/standardised-ratio";
import { survivalAt, survivalCurve } from "@/lib/domain/statistics/survival-curve";
import { shrunkenRatio } from "@/lib/domain/statistics/two-gamma-shrinkage";
import { laneyChart, uChart } from "@/lib/domain/statistics/u-chart";
import { fitWeibull } from "@/lib/domain/statistics/weibull-fit";
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";

/** What cases take in; each has those its method asks for. */
interface Inputs {
  [name: string]: unknown;
  count: number; exposure: number; confidence: number; counts: number[]; exposures: number[]; nullRate: number;
  observed: number; stratumRates: number[]; stratumExposures: number[];
  shape: number; rate: number; interval: number; threshold: number;
  expected: number[]; hyperparameters: { alpha1: number; beta1: number; alpha2: number; beta2: number; P: number };
  pValues: number[]; q: number;
  sigmas: number; sizes: number[]; values: number[]; lambda: number; start: number; sigma: number; width: number;
  target: number; k: number; h: number; inControlMean: number; outOfControlMean: number; inControlRate: number; outOfControlRate: number;
  cusum: { k: number; h: number }; ewma: { lambda: number; width: number }; shifts: number[];
  times: number[]; events: number[]; group: number[]; at: number[]; units: { censor: number; events: number[] }[];
  failures: number; totalTime: number;
  cumulativeTriangle: number[][]; unitsShipped: number[]; claimsByAge: number[][]; horizonMonths: number; countsByEventMonthAndDelay: number[][];
  successes: number; trials: number; successes1: number; trials1: number; successes2: number; trials2: number;
  table: number[][]; month: number[];
  lastCategory: string; entries: Record<QualityCost, number[]>; sales: number;
}
interface Case {
  id: string;
  method: string;
  inputs: Inputs;
  expected: Record<string, unknown>;
  tolerance: { rel?: number; abs?: number };
}

// Computed in R 4.2.2 and again in Python with scipy; the file names the source of each case and its tolerance, which
// covers the digits those programs print.
const { cases } = JSON.parse(readFileSync(new URL("../../reference/statistics.json", import.meta.url), "utf8")) as { cases: Case[] };

const rates = (counts: number[], exposures: number[]) => counts.map((count, index) => ({ count, exposure: exposures[index] ?? 0 }));
const months = (counts: number[], sizes: number[]) => counts.map((count, index) => ({ count, size: sizes[index] ?? 0 }));
const lifetimes = ({ times, events }: Inputs) => times.map((time, index): Lifetime => ({ time, failed: events[index] === 1 }));
const outside = (points: readonly ({ isOutside: boolean } | null)[]) => points.flatMap((point, index) => (point?.isOutside ? [index] : []));
const inWords = (value: number | "infinite" | undefined) => (value === "infinite" ? "Infinity" : value);
const weibull = (inputs: Inputs) => {
  const fit = fitWeibull(lifetimes(inputs), inputs.confidence);
  if (fit.kind !== "fitted") return { shape: null, scale: null, failures: fit.failures };
  return {
    shape: fit.shape.estimate, shapeLower: fit.shape.lower, shapeUpper: fit.shape.upper,
    scale: fit.scale.estimate, scaleLower: fit.scale.lower, scaleUpper: fit.scale.upper,
    b10: fit.tenPercent.estimate, b10Lower: fit.tenPercent.lower, b10Upper: fit.tenPercent.upper,
    mean: fit.mean, logLikelihood: fit.logLikelihood, failures: fit.failures,
  };
};

/** How we answer each method the reports use, in the words of the file. */
const ANSWERS: Readonly<Record<string, (inputs: Inputs) => unknown>> = {
  poisson_exact_interval: ({ count, exposure, confidence }) => {
    const { estimate, ...limits } = poissonInterval(count, exposure, confidence);
    return { rate: estimate, ...limits };
  },
  rate_ratio_exact: ({ counts: [x = 0, y = 0], exposures: [e = 0, f = 0], confidence }) => {
    const got = rateRatio({ count: x, exposure: e }, { count: y, exposure: f }, confidence);
    return { ...got, ratio: inWords(got?.ratio), upper: inWords(got?.upper) };
  },
  rate_ratio_wald: ({ counts: [x = 0, y = 0], exposures: [e = 0, f = 0], confidence }) => rateRatioOfLargeCounts({ count: x, exposure: e }, { count: y, exposure: f }, confidence),
  poisson_rate_test: ({ count, exposure, nullRate }) => {
    const { estimate, ...limits } = poissonInterval(count, exposure, 0.95);
    return { rate: estimate, ...limits, log10PValue: Math.log10(poissonTest(count, exposure * nullRate)) };
  },
  standardised_ratio: ({ observed, stratumRates, stratumExposures, confidence }) => {
    const expected = expectedCount(stratumRates.map((rate, index) => ({ rate, exposure: stratumExposures[index] ?? 0 })));
    const { estimate, ...limits } = standardisedRatio(observed, expected, confidence);
    return { expectedCount: expected, ratio: estimate, ...limits };
  },
  gamma_poisson_posterior: ({ count, exposure, shape, rate, interval, threshold }) => {
    const { mean, median, lower, upper } = shrunkenRate({ count, exposure }, { shape, rate }, interval);
    return { posteriorMean: mean, posteriorMedian: median, lower, upper, probabilityRateAbove: chanceAbove(threshold, { count, exposure }, { shape, rate }) };
  },
  gamma_poisson_fit: ({ counts, exposures }) => {
    const fit = fitGammaPoisson(rates(counts, exposures));
    if (fit.kind !== "fitted") return null;
    const { prior, logLikelihood } = fit;
    const posteriorMeans = rates(counts, exposures).map((rate) => shrunkenRate(rate, prior, 0.9).mean);
    return { ...prior, priorMean: prior.shape / prior.rate, logLikelihood, posteriorMeans };
  },
  gamma_poisson_fit_degenerate: ({ counts, exposures }) => {
    const fit = fitGammaPoisson(rates(counts, exposures));
    if (fit.kind !== "not-overdispersed") return null;
    return { overdispersed: false, pooledRate: fit.pooledRate, pearsonChiSquare: fit.chiSquare, degreesOfFreedom: fit.degreesOfFreedom };
  },
  ebgm: ({ counts, expected, hyperparameters: { alpha1, beta1, alpha2, beta2, P } }) => {
    const prior = { first: { shape: alpha1, rate: beta1 }, second: { shape: alpha2, rate: beta2 }, weightOfFirst: P };
    const ratios = counts.map((count, index) => shrunkenRatio(count, expected[index] ?? 0, prior));
    return {
      mixtureWeight: ratios.map(({ weightOfFirst }) => weightOfFirst),
      ebgm: ratios.map(({ ratio }) => ratio),
      eb05: ratios.map(({ lower }) => lower),
      eb95: ratios.map(({ upper }) => upper),
    };
  },
  benjamini_hochberg: ({ pValues, q }) => {
    const adjusted = falseDiscoveryRates(pValues);
    return { adjusted, rejected: adjusted.filter((rate) => rate <= q).length };
  },
  c_chart: ({ counts, sigmas }) => {
    const chart = uChart(months(counts, counts.map(() => 1)), sigmas);
    return { center: chart?.center, upper: chart?.points[0]?.upper, lower: chart?.points[0]?.lower, outOfControl: outside(chart?.points ?? []) };
  },
  u_chart: ({ counts, sizes, sigmas }) => {
    const { center, points } = uChart(months(counts, sizes), sigmas) ?? { points: [] };
    return { center, rates: points.map((point) => point?.rate), upper: points.map((point) => point?.upper), lower: points.map((point) => point?.lower), outOfControl: outside(points) };
  },
  laney_u_prime: ({ counts, sizes }) => {
    const chart = laneyChart(months(counts, sizes), 3);
    return { center: chart?.center, z: chart?.deviations, sigmaZ: chart?.widening, upper: chart?.points.map((point) => point?.upper), lower: chart?.points.map((point) => point?.lower) };
  },
  ewma: ({ values, lambda: weight, start, sigma, width }) => {
    const points = ewmaChart(values, { weight, start, sigma, width });
    const reach = widestReach({ weight, sigma, width });
    return {
      ewma: points.map(({ average }) => average),
      upper: points.map(({ upper }) => upper),
      lower: points.map(({ lower }) => lower),
      asymptoticUpper: start + reach,
      asymptoticLower: start - reach,
    };
  },
  cusum_tabular: ({ values, target, k, h }) => cusum(values, { target, allowance: k, limit: h }),
  cusum_poisson: ({ counts, inControlMean, outOfControlMean, h }) => {
    const { allowedRate, sums, firstSignal } = poissonCusum(rates(counts, counts.map(() => 1)), { usualRate: inControlMean, raisedRate: outOfControlMean, limit: h });
    return { k: allowedRate, high: sums, firstSignal };
  },
  cusum_poisson_exposure: ({ counts, exposures, inControlRate, outOfControlRate, h }) => {
    const { allowedRate, sums, firstSignal } = poissonCusum(rates(counts, exposures), { usualRate: inControlRate, raisedRate: outOfControlRate, limit: h });
    return { k: allowedRate, high: sums, firstSignal };
  },
  average_run_length: ({ cusum: { k, h }, ewma: { lambda, width }, shifts }) => ({
    cusum: shifts.map((shift) => cusumRunLength({ allowance: k, limit: h }, shift)),
    ewma: shifts.map((shift) => ewmaRunLength({ weight: lambda, width }, shift)),
  }),
  kaplan_meier: (inputs) => {
    const { steps, median } = survivalCurve(lifetimes(inputs), inputs.confidence);
    return {
      eventTimes: steps.map(({ time }) => time),
      atRisk: steps.map(({ atRisk }) => atRisk),
      events: steps.map(({ failures }) => failures),
      survival: steps.map(({ survival }) => survival),
      greenwoodStdError: steps.map(({ standardError }) => standardError),
      lower: steps.map(({ lower }) => lower),
      upper: steps.map(({ upper }) => upper),
      median,
    };
  },
  kaplan_meier_at: (inputs) => {
    const curve = survivalCurve(lifetimes(inputs), inputs.confidence);
    const at = inputs.at.map((time) => survivalAt(curve, time));
    return {
      ...curve,
      at: { time: inputs.at, survival: at.map((step) => step?.survival), lower: at.map((step) => step?.lower), upper: at.map((step) => step?.upper) },
      numberOfEvents: curve.steps.reduce((sum, { failures }) => sum + failures, 0),
    };
  },
  log_rank: (inputs) => {
    const group = (wanted: number) => lifetimes(inputs).filter((_, index) => inputs.group[index] === wanted);
    return logRankTest(group(1), group(2));
  },
  nelson_aalen: (inputs) => {
    const steps = cumulativeHazard(lifetimes(inputs));
    return { eventTimes: steps.map(({ time }) => time), cumulativeHazard: steps.map((step) => step.cumulativeHazard), standardError: steps.map((step) => step.standardError) };
  },
  mean_cumulative_function: ({ units }) => {
    const steps = meanCumulativeFunction(units.map(({ censor, events }) => ({ watchedTo: censor, events })));
    return { eventTimes: steps.map(({ age }) => age), atRisk: steps.map(({ atRisk }) => atRisk), mcf: steps.map(({ mean }) => mean), robustStdError: steps.map(({ standardError }) => standardError) };
  },
  weibull_mle: weibull,
  exponential_rate: ({ failures, totalTime, confidence }) => {
    const got = meanTimeBetweenFailures(failures, totalTime, confidence);
    return { mtbf: got?.estimate, lower: got?.lower, upper: got?.upper };
  },
  exponential_zero_failure_bound: ({ totalTime, confidence }) => {
    const { rateUpper, meanTimeLower } = boundWithoutFailure(totalTime, confidence);
    return { rateUpper, mtbfLower: meanTimeLower };
  },
  chain_ladder_mack: ({ cumulativeTriangle }) => chainLadder(cumulativeTriangle),
  warranty_age_forecast: ({ unitsShipped, claimsByAge, horizonMonths }) => {
    const { byAge, byCohort, total } = forecastByAge(unitsShipped.map((units, index) => ({ units, claimsByAge: claimsByAge[index] ?? [] })), horizonMonths);
    let cumulative = 0;
    return {
      claimsByAge: byAge.map(({ claims }) => claims),
      exposureByAge: byAge.map(({ exposure }) => exposure),
      ratePerUnitByAge: byAge.map(({ rate }) => rate),
      cumulativeRate: byAge.map(({ rate }) => (cumulative += rate ?? 0)),
      forecastByCohort: byCohort,
      forecastTotal: total,
    };
  },
  reporting_delay: ({ countsByEventMonthAndDelay }) => {
    const { shareWithin, reported, adjusted } = adjustForDelay(countsByEventMonthAndDelay);
    return { cdf: shareWithin, reported, adjusted, adjustedTotal: adjusted.reduce<number>((sum, claims) => sum + (claims ?? 0), 0) };
  },
  wilson_interval: ({ successes, trials, confidence }) => wilsonInterval(successes, trials, confidence),
  clopper_pearson: ({ successes, trials, confidence }) => exactShareInterval(successes, trials, confidence),
  newcombe_difference: ({ successes1, trials1, successes2, trials2, confidence }) => {
    const { estimate, ...limits } = differenceOfShares({ successes: successes1, trials: trials1 }, { successes: successes2, trials: trials2 }, confidence);
    return { difference: estimate, ...limits };
  },
  cohen_kappa: ({ table }) => cohenKappa(table, "exact"),
  cohen_kappa_weighted: ({ table }) => ({
    ...cohenKappa(table, "exact"),
    weightedKappaLinear: cohenKappa(table, "linear")?.kappa,
    weightedStandardError: cohenKappa(table, "linear")?.standardError,
    weightedKappaQuadratic: cohenKappa(table, "quadratic")?.kappa,
  }),
  fleiss_kappa: ({ counts }) => fleissKappa(counts as unknown as number[][]),
  poisson_trend: ({ month, counts, exposures, confidence }) => {
    const fit = poissonTrend(month.map((number, index) => ({ month: number, count: counts[index] ?? 0, exposure: exposures[index] ?? 0 })), confidence);
    if (fit.kind !== "fitted") return null;
    const { estimate, lower, upper } = fit.ratioPerMonth;
    return { ...fit, rateRatioPerMonth: estimate, lower, upper };
  },
  poisson_homogeneity: ({ counts, exposures }) => homogeneity(rates(counts, exposures)),
  pareto: ({ counts, lastCategory }) => {
    const lines = pareto(Object.entries(counts as unknown as Record<string, number>).map(([name, count]) => ({ name, count })), { last: lastCategory, vitalShare: 0.8 });
    return {
      order: lines.map(({ name }) => name),
      counts: lines.map(({ count }) => count),
      cumulativeShare: lines.map(({ cumulativeShare }) => cumulativeShare),
      vitalFew: lines.filter(({ isVital }) => isVital).map(({ name }) => name),
    };
  },
  cost_of_quality: ({ entries, sales }) => costOfQuality(entries, sales),
};

/** Methods of the file that nothing of ours uses. */
const NOT_USED: Readonly<Record<string, string>> = {
  prr: "Reporting ratios compare the mix of causes, without exposure; the reports compare rates.",
  expected_counts: "Expected counts come of units in service and the margins of kit and vehicle, not of a table of causes.",
  multiple_adjust: "Holm, Bonferroni and Benjamini-Yekutieli guard against more than a list to look through needs.",
};
/** Held against the file in calibration-reference.test.ts. */
const IN_CALIBRATION = [
  "auc", "beta_binomial_fit", "beta_update", "brier_decomposition", "calibration_error", "calibration_regression", "calibration_test",
  "dirichlet_update", "log_loss", "multiclass_scores", "noisy_or_link_mle", "pooled_beta",
];

function expectSame(got: unknown, expected: unknown, tolerance: Case["tolerance"], at: string): void {
  if (typeof expected === "number") {
    expect(typeof got, at).toBe("number");
    const allowed = Math.max(tolerance.abs ?? 0, (tolerance.rel ?? 0) * Math.abs(expected));
    expect(Math.abs((got as number) - expected), `${at}: ${got} for ${expected}`).toBeLessThanOrEqual(allowed);
  } else if (expected !== null && typeof expected === "object") {
    if (Array.isArray(expected)) expect((got as unknown[]).length, at).toBe(expected.length);
    for (const [name, value] of Object.entries(expected)) expectSame((got as Record<string, unknown>)[name], value, tolerance, `${at}.${name}`);
  } else expect(got, at).toBe(expected);
}

describe("statistics agree with R and scipy", () => {
  const ours = cases.filter(({ method }) => method in ANSWERS);

  it("in every case but those of methods that are not used", () => {
    const elsewhere = cases.filter(({ method }) => IN_CALIBRATION.includes(method));
    const left = cases.filter(({ method }) => method in NOT_USED);
    expect([cases.length, ours.length, elsewhere.length, left.length]).toEqual([80, 62, 14, 4]);
    expect(new Set(ours.map(({ method }) => method))).toEqual(new Set(Object.keys(ANSWERS)));
  });

  it.each(ours.map((given) => [given.id, given] as const))("%s", (_id, { method, inputs, expected, tolerance }) => {
    // What the source printed is for reading; the full digits stand beside it.
    const recomputed = Object.fromEntries(Object.entries(expected).filter(([name]) => !name.startsWith("published")));
    expectSame(ANSWERS[method]?.(inputs), recomputed, tolerance, method);
  });
});
