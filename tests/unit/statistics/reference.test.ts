import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { forecastByAge } from "@/lib/domain/statistics/age-rate-forecast";
import { boundWithoutFailure } from "@/lib/domain/statistics/bound-without-failure";
import { chainLadder } from "@/lib/domain/statistics/chain-ladder";
import { cohenKappa } from "@/lib/domain/statistics/cohen-kappa";
import { discreteFalseDiscoveryRates } from "@/lib/domain/statistics/discrete-false-discovery";
import { expectedCount } from "@/lib/domain/statistics/expected-count";
import type { Lifetime } from "@/lib/domain/statistics/lifetimes";
import { poissonCusum } from "@/lib/domain/statistics/poisson-cusum";
import { poissonInterval } from "@/lib/domain/statistics/poisson-interval";
import { atLeastOfUncertain } from "@/lib/domain/statistics/predictive-count";
import { rateRatio } from "@/lib/domain/statistics/rate-ratio";
import { adjustForDelay } from "@/lib/domain/statistics/reporting-delay";
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
  expected: number[]; hyperparameters: { alpha1: number; beta1: number; alpha2: number; beta2: number; P: number };
  pValues: number[]; q: number;
  sigmas: number; sizes: number[];
  h: number; inControlMean: number; outOfControlMean: number; inControlRate: number; outOfControlRate: number;
  times: number[]; events: number[]; at: number[];
  totalTime: number;
  cumulativeTriangle: number[][]; unitsShipped: number[]; claimsByAge: number[][]; horizonMonths: number; countsByEventMonthAndDelay: number[][];
  successes: number; trials: number;
  table: number[][];
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

/** A test that can come out with any p-value. */
const continuous = (pValue: number) => ({ pValue, attainableUpTo: (line: number) => line });

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
  // No count below is as unlikely as this one above: both sides are the one that the signals look at.
  poisson_rate_test: ({ count, exposure, nullRate }) => {
    const { estimate, ...limits } = poissonInterval(count, exposure, 0.95);
    return { rate: estimate, ...limits, log10PValue: Math.log10(atLeastOfUncertain(count, exposure * nullRate, 0)) };
  },
  standardised_ratio: ({ observed, stratumRates, stratumExposures, confidence }) => {
    const expected = expectedCount(stratumRates.map((rate, index) => ({ rate, exposure: stratumExposures[index] ?? 0 })));
    const { estimate, ...limits } = poissonInterval(observed, expected, confidence);
    return { expectedCount: expected, ratio: estimate, ...limits };
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
    const adjusted = discreteFalseDiscoveryRates(pValues.map(continuous), 1);
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
  cusum_poisson: ({ counts, inControlMean, outOfControlMean, h }) => {
    const { allowedRate, sums, firstSignal } = poissonCusum(rates(counts, counts.map(() => 1)), { usualRate: inControlMean, raisedRate: outOfControlMean, limit: h });
    return { k: allowedRate, high: sums, firstSignal };
  },
  cusum_poisson_exposure: ({ counts, exposures, inControlRate, outOfControlRate, h }) => {
    const { allowedRate, sums, firstSignal } = poissonCusum(rates(counts, exposures), { usualRate: inControlRate, raisedRate: outOfControlRate, limit: h });
    return { k: allowedRate, high: sums, firstSignal };
  },
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
  weibull_mle: weibull,
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
  cohen_kappa: ({ table }) => cohenKappa(table, "exact"),
  cohen_kappa_weighted: ({ table }) => ({
    ...cohenKappa(table, "exact"),
    weightedKappaLinear: cohenKappa(table, "linear")?.kappa,
    weightedStandardError: cohenKappa(table, "linear")?.standardError,
    weightedKappaQuadratic: cohenKappa(table, "quadratic")?.kappa,
  }),
};

/** Methods of the file that nothing of ours uses. */
const NOT_USED: Readonly<Record<string, string>> = {
  prr: "Reporting ratios compare the mix of causes, without exposure; the reports compare rates.",
  expected_counts: "Expected counts come of units in service and the margins of kit and vehicle, not of a table of causes.",
  multiple_adjust: "Holm, Bonferroni and Benjamini-Yekutieli guard against more than a list to look through needs.",
  rate_ratio_wald: "Before and after a change are compared by the exact interval, whatever the counts.",
  gamma_poisson_posterior: "Cells are shrunken as ratios to what is expected of them, with two gammas: see ebgm.",
  gamma_poisson_fit: "The two gammas are not fitted: one prior for all months keeps signals comparable.",
  gamma_poisson_fit_degenerate: "Likewise.",
  poisson_homogeneity: "Cells differ by kit and vehicle as they should; each is held against what is expected of it.",
  poisson_trend: "A rise is looked for as a step with a start, by the cumulative sum, not as a slope.",
  ewma: "One chart tells of small lasting rises: the cumulative sum of counts, which also tells since when.",
  cusum_tabular: "Months are counts on different exposures: see cusum_poisson and cusum_poisson_exposure.",
  average_run_length: "The limit of the sum is not a run length but the exact chance of the last sum.",
  log_rank: "Kits are shown each with its curve and band; no test is made between two.",
  nelson_aalen: "Time to claim is read from the survival curve; what the hazard does, from the Weibull's shape.",
  mean_cumulative_function: "Claims are counted per shipment; no report follows one unit through several claims.",
  exponential_rate: "The Weibull says whether failures come at random; a mean time alone would hide it.",
  clopper_pearson: "Shares are read, not promised: Wilson's interval is the one of all reports.",
  newcombe_difference: "Changes are told as ratios of rates; no report takes one share from another.",
  fleiss_kappa: "A blind sample is judged by two, the first decision and one other.",
  pareto: "A cell's causes have no catch-all to stand last and no line between the vital few and the rest.",
  cost_of_quality: "The tool knows what claims cost, neither what prevention and inspection do nor the sales.",
  dirichlet_update: "Causes are learned one by one, for several may be present at once.",
};
/** Held against the file in calibration-reference.test.ts. */
const IN_CALIBRATION = [
  "auc", "beta_binomial_fit", "beta_update", "brier_decomposition", "calibration_error", "calibration_regression", "calibration_test",
  "log_loss", "multiclass_scores", "noisy_or_link_mle", "pooled_beta",
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
    expect([cases.length, ours.length, elsewhere.length, left.length]).toEqual([80, 42, 13, 25]);
    expect(new Set(ours.map(({ method }) => method))).toEqual(new Set(Object.keys(ANSWERS)));
  });

  it.each(ours.map((given) => [given.id, given] as const))("%s", (_id, { method, inputs, expected, tolerance }) => {
    // What the source printed is for reading; the full digits stand beside it.
    const recomputed = Object.fromEntries(Object.entries(expected).filter(([name]) => !name.startsWith("published")));
    expectSame(ANSWERS[method]?.(inputs), recomputed, tolerance, method);
  });
});
