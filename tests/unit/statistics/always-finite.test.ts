import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { forecastByAge, forecastInterval } from "@/lib/domain/statistics/age-rate-forecast";
import { chainLadder } from "@/lib/domain/statistics/chain-ladder";
import { cohenKappa } from "@/lib/domain/statistics/cohen-kappa";
import { poissonCusum } from "@/lib/domain/statistics/poisson-cusum";
import { atLeastOfUncertain } from "@/lib/domain/statistics/predictive-count";
import { rateRatio } from "@/lib/domain/statistics/rate-ratio";
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
const confidence = fc.constantFrom(0.8, 0.9, 0.95, 0.99);

describe("whatever is counted, every figure is a number that can be shown", () => {
  it("of rates and their tests", () => {
    fc.assert(
      fc.property(rate, rate, confidence, (first, second, level) => {
        const ratio = rateRatio(first, second, level);
        expectFinite(ratio);
        if (ratio && ratio.ratio !== "infinite") {
          expect(ratio.lower).toBeLessThanOrEqual(ratio.ratio * (1 + 1e-9));
          if (ratio.upper !== "infinite") expect(ratio.upper).toBeGreaterThanOrEqual(ratio.ratio * (1 - 1e-9));
        }
        for (const pValue of [atLeastOfUncertain(first.count, second.exposure, 0), atLeastOfUncertain(first.count, second.exposure, 0.2), ratio?.pValue ?? 1]) {
          expect(pValue).toBeGreaterThanOrEqual(0);
          expect(pValue).toBeLessThanOrEqual(1);
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
        const { firstSignal, likelyStart, ...sums } = poissonCusum(months.map((month) => ({ count: month.count, exposure: month.size })), { usualRate, raisedRate: 3 * usualRate, limit: 4 });
        expectFinite(sums);
        if (firstSignal === null) expect(likelyStart).toBeNull();
        else expect(likelyStart).toBeLessThanOrEqual(firstSignal);
      }),
    );
  });

  it("of times to failure", () => {
    fc.assert(
      fc.property(fc.array(lifetime, { maxLength: 30 }), confidence, (lifetimes, level) => {
        const { steps, ...curve } = survivalCurve(lifetimes, level);
        expectFinite(curve);
        for (const step of steps) {
          expectFinite(step);
          if (step.lower !== null) expect(step.lower).toBeLessThanOrEqual(step.survival);
          if (step.upper !== null) expect(step.upper).toBeGreaterThanOrEqual(step.survival);
        }
        expectFinite(fitWeibull(lifetimes, level));
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

  it("of agreement", () => {
    fc.assert(
      fc.property(fc.array(fc.array(count, { minLength: 3, maxLength: 3 }), { minLength: 3, maxLength: 3 }), (table) => {
        for (const weight of ["exact", "linear", "quadratic"] as const) expectFinite(cohenKappa(table, weight));
      }),
    );
  });
});
