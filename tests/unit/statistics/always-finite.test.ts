import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { forecastByAge, forecastInterval } from "@/lib/domain/statistics/age-rate-forecast";
import { chainLadder } from "@/lib/domain/statistics/chain-ladder";
import { exactShareInterval } from "@/lib/domain/statistics/clopper-pearson-interval";
import { cohenKappa } from "@/lib/domain/statistics/cohen-kappa";
import { costOfQuality } from "@/lib/domain/statistics/cost-of-quality";
import { cumulativeHazard } from "@/lib/domain/statistics/cumulative-hazard";
import { cusum } from "@/lib/domain/statistics/cusum";
import { ewmaChart } from "@/lib/domain/statistics/ewma-chart";
import { meanTimeBetweenFailures } from "@/lib/domain/statistics/exponential-rate";
import { falseDiscoveryRates } from "@/lib/domain/statistics/false-discovery";
import { fleissKappa } from "@/lib/domain/statistics/fleiss-kappa";
import { chanceAbove, shrunkenRate } from "@/lib/domain/statistics/gamma-poisson";
import { fitGammaPoisson, priorOf } from "@/lib/domain/statistics/gamma-poisson-fit";
import { homogeneity } from "@/lib/domain/statistics/homogeneity";
import { logRankTest } from "@/lib/domain/statistics/log-rank-test";
import { meanCumulativeFunction } from "@/lib/domain/statistics/mean-cumulative-function";
import { differenceOfShares } from "@/lib/domain/statistics/newcombe-difference";
import { pareto } from "@/lib/domain/statistics/pareto";
import { poissonCusum } from "@/lib/domain/statistics/poisson-cusum";
import { atLeast, poissonTest } from "@/lib/domain/statistics/poisson-rate-test";
import { poissonTrend } from "@/lib/domain/statistics/poisson-trend";
import { rateRatio, rateRatioOfLargeCounts } from "@/lib/domain/statistics/rate-ratio";
import { adjustForDelay } from "@/lib/domain/statistics/reporting-delay";
import { survivalCurve } from "@/lib/domain/statistics/survival-curve";
import { STARTING_PRIOR, shrunkenRatio } from "@/lib/domain/statistics/two-gamma-shrinkage";
import { laneyChart, uChart } from "@/lib/domain/statistics/u-chart";
import { fitWeibull } from "@/lib/domain/statistics/weibull-fit";

/** Every number within a result can be shown: undefined is null or a word, never NaN or infinite. */
function expectFinite(value: unknown, at = "result"): void {
  if (typeof value === "number") expect(Number.isFinite(value), `${at} is ${value}`).toBe(true);
  else if (value !== null && typeof value === "object") for (const [name, part] of Object.entries(value)) expectFinite(part, `${at}.${name}`);
  else expect(value, at).not.toBeUndefined();
}

/** None, one, a few, or very many. */
const count = fc.oneof({ weight: 3, arbitrary: fc.constant(0) }, { weight: 2, arbitrary: fc.constant(1) }, { weight: 4, arbitrary: fc.nat(40) }, { weight: 1, arbitrary: fc.integer({ min: 1e5, max: 5e6 }) });
const exposure = fc.oneof(fc.constant(200), fc.double({ min: 1e-3, max: 1e7, noNaN: true }));
const exposureOrNone = fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 4, arbitrary: exposure });
const rate = fc.record({ count, exposure });
const counted = fc.tuple(count, exposureOrNone).map(([of, size]) => ({ count: size > 0 ? of : 0, size }));
const lifetime = fc.record({ time: fc.oneof(fc.integer({ min: 1, max: 12 }), fc.double({ min: 1e-3, max: 1e4, noNaN: true })), failed: fc.boolean() });
const share = fc.tuple(count, fc.integer({ min: 1, max: 50 })).map(([successes, more]) => ({ successes, trials: successes + more }));
const confidence = fc.constantFrom(0.8, 0.9, 0.95, 0.99);

describe("whatever is counted, every figure is a number that can be shown", () => {
  it("of rates and their tests", () => {
    fc.assert(
      fc.property(rate, rate, confidence, (first, second, level) => {
        const ratio = rateRatio(first, second, level);
        expectFinite(ratio);
        expectFinite(rateRatioOfLargeCounts(first, second, level));
        if (ratio && ratio.ratio !== "infinite") {
          expect(ratio.lower).toBeLessThanOrEqual(ratio.ratio * (1 + 1e-9));
          if (ratio.upper !== "infinite") expect(ratio.upper).toBeGreaterThanOrEqual(ratio.ratio * (1 - 1e-9));
        }
        for (const pValue of [poissonTest(first.count, second.exposure), atLeast(first.count, second.exposure), ratio?.pValue ?? 1]) {
          expect(pValue).toBeGreaterThanOrEqual(0);
          expect(pValue).toBeLessThanOrEqual(1);
        }
      }),
    );
  });

  it("of shrunken rates, with limits around them", () => {
    fc.assert(
      fc.property(fc.array(rate, { maxLength: 20 }), confidence, (rates, level) => {
        expectFinite(fitGammaPoisson(rates));
        expectFinite(homogeneity(rates));
        const found = priorOf(rates);
        if (!found) expect(rates.every((one) => one.count === 0)).toBe(true);
        else for (const one of rates) {
          const shrunken = shrunkenRate(one, found.prior, level);
          expectFinite(shrunken);
          expect(shrunken.lower).toBeLessThanOrEqual(shrunken.median);
          expect(shrunken.median).toBeLessThanOrEqual(shrunken.upper);
          expectFinite(chanceAbove(shrunken.mean, one, found.prior));
        }
      }),
    );
  });

  it("of shrunken ratios, which stay between the counts and the expected", () => {
    fc.assert(
      fc.property(count, fc.double({ min: 1e-4, max: 1e6, noNaN: true }), (observed, expected) => {
        const shrunken = shrunkenRatio(observed, expected, STARTING_PRIOR);
        expectFinite(shrunken);
        expect(shrunken.lower).toBeLessThanOrEqual(shrunken.upper);
        if (observed > expected && expected > 1) expect(shrunken.ratio).toBeLessThanOrEqual((observed / expected) * 1.0001);
      }),
    );
  });

  it("of control charts", () => {
    fc.assert(
      fc.property(fc.array(counted, { maxLength: 30 }), fc.double({ min: 1e-4, max: 10, noNaN: true }), (months, usualRate) => {
        expectFinite(uChart(months, 3));
        expectFinite(laneyChart(months, 3));
        expectFinite(ewmaChart(months.map((month) => month.count), { weight: 0.2, start: usualRate, sigma: usualRate, width: 2.7 }));
        expectFinite(cusum(months.map((month) => month.count), { target: usualRate, allowance: usualRate, limit: 5 }));
        const { firstSignal, likelyStart, ...sums } = poissonCusum(months.map((month) => ({ count: month.count, exposure: month.size })), { usualRate, raisedRate: 3 * usualRate, limit: 4 });
        expectFinite(sums);
        if (firstSignal === null) expect(likelyStart).toBeNull();
        else expect(likelyStart).toBeLessThanOrEqual(firstSignal);
      }),
    );
  });

  it("of times to failure", () => {
    fc.assert(
      fc.property(fc.array(lifetime, { maxLength: 30 }), fc.array(lifetime, { maxLength: 30 }), confidence, (first, second, level) => {
        const { steps, ...curve } = survivalCurve(first, level);
        expectFinite(curve);
        for (const step of steps) {
          expectFinite(step);
          if (step.lower !== null) expect(step.lower).toBeLessThanOrEqual(step.survival);
          if (step.upper !== null) expect(step.upper).toBeGreaterThanOrEqual(step.survival);
        }
        expectFinite(cumulativeHazard(first));
        expectFinite(logRankTest(first, second));
        expectFinite(fitWeibull(first, level));
        expectFinite(meanTimeBetweenFailures(first.filter(({ failed }) => failed).length, 1 + first.length, level));
        expectFinite(meanCumulativeFunction(first.map(({ time }) => ({ watchedTo: 10, events: [time, time / 2] }))));
      }),
    );
  });

  it("of forecasts and of claims still to be reported", () => {
    const triangle = fc.integer({ min: 1, max: 8 }).chain((ages) => fc.tuple(...Array.from({ length: ages }, (_, row) => fc.array(count, { minLength: ages - row, maxLength: ages - row }))));
    fc.assert(
      fc.property(triangle, fc.array(exposureOrNone, { minLength: 8, maxLength: 8 }), fc.nat(6), (rows, units, horizon) => {
        expectFinite(adjustForDelay(rows));
        expectFinite(chainLadder(rows.map((row) => row.map((_, age) => row.slice(0, age + 1).reduce((sum, claims) => sum + claims, 0)))));
        const cohorts = rows.map((claimsByAge, index) => ({ units: units[index] ?? 0, claimsByAge: (units[index] ?? 0) > 0 ? claimsByAge : claimsByAge.map(() => 0) }));
        expectFinite(forecastByAge(cohorts, horizon));
        const interval = forecastInterval(cohorts, horizon, 0.9);
        expectFinite(interval);
        if (interval) expect(interval.lower).toBeLessThanOrEqual(interval.upper);
      }),
    );
  });

  it("of shares and agreement", () => {
    fc.assert(
      fc.property(share, share, fc.array(fc.array(count, { minLength: 3, maxLength: 3 }), { minLength: 3, maxLength: 3 }), (first, second, table) => {
        expectFinite(exactShareInterval(first.successes, first.trials, 0.9));
        const difference = differenceOfShares(first, second, 0.9);
        expectFinite(difference);
        expect(Math.abs(difference.lower)).toBeLessThanOrEqual(1);
        for (const weight of ["exact", "linear", "quadratic"] as const) expectFinite(cohenKappa(table, weight));
        expectFinite(fleissKappa(table.map(() => [2, 0, 1])));
      }),
    );
    expectFinite(fleissKappa([[3, 0], [3, 0]]));
  });

  it("of trends, order, money and many tests at once", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(24), count, exposureOrNone), { maxLength: 14 }), (rows) => {
        expectFinite(poissonTrend(rows.map(([month, of, size]) => ({ month, count: size > 0 ? of : 0, exposure: size })), 0.95));
        expectFinite(pareto(rows.map(([, of], index) => ({ name: `cause ${index}`, count: of })), { vitalShare: 0.8 }));
        const amounts = rows.map(([, of]) => of);
        expectFinite(costOfQuality({ prevention: amounts, appraisal: [], internalFailure: [], externalFailure: amounts }, 0));
        expectFinite(falseDiscoveryRates(rows.map(([, of]) => 1 / (1 + of))));
      }),
    );
  });
});
