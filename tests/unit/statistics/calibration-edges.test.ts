import { describe, expect, it } from "vitest";
import { areaUnderRoc } from "@/lib/domain/statistics/area-under-roc";
import { betaBinomialFit } from "@/lib/domain/statistics/beta-binomial-fit";
import { betaUpdate } from "@/lib/domain/statistics/beta-update";
import { brierDecomposition } from "@/lib/domain/statistics/brier-score";
import { calibrationRegression } from "@/lib/domain/statistics/calibration-slope";
import { logLoss } from "@/lib/domain/statistics/log-loss";
import { fitNoisyOrLinks } from "@/lib/domain/statistics/noisy-or-links";
import { pooledBeta } from "@/lib/domain/statistics/pooled-beta";
import { reliabilityCurve } from "@/lib/domain/statistics/reliability-curve";
import { spiegelhalterZ } from "@/lib/domain/statistics/spiegelhalter-z";

describe("what cannot be told is null, never a number", () => {
  it.each([
    ["the slope where everything happened", () => calibrationRegression([0.2, 0.9], [1, 1])],
    ["the slope of forecasts that are all alike", () => calibrationRegression([0.3, 0.3, 0.3], [1, 0, 0])],
    ["the slope of forecasts that part the outcomes", () => calibrationRegression([0.1, 0.2, 0.8, 0.9], [0, 0, 1, 1])],
    ["z of forecasts without any doubt", () => spiegelhalterZ([0, 1], [0, 1])],
    ["skill where nothing happened", () => brierDecomposition([0.1, 0.2], [0, 0]).skillScore],
    ["the area of one kind only", () => areaUnderRoc([0.1, 0.2], [1, 1], 0.95)],
    ["how groups differ that differ no more than by chance", () => betaBinomialFit([1, 2, 3, 4].map((times) => ({ successes: 10 * times, trials: 100 * times })))],
  ])("%s", (_name, told) => {
    expect(told()).toBeNull();
  });
});

describe("what makes no sense is refused by name", () => {
  it.each([
    ["logLoss", () => logLoss([], [])],
    ["logLoss", () => logLoss([1.2], [1])],
    ["brierDecomposition", () => brierDecomposition([0.5], [])],
    ["reliabilityCurve", () => reliabilityCurve([0.5], [1], 0, 0.95)],
    ["betaUpdate", () => betaUpdate({ alpha: 0, beta: 1 }, 1, 1)],
    ["pooledBeta", () => pooledBeta(0, 5, { successes: 1, trials: 2 })],
    ["betaBinomialFit", () => betaBinomialFit([{ successes: 1, trials: 2 }])],
    ["fitNoisyOrLinks", () => fitNoisyOrLinks([], 1)],
  ])("%s", (name, ask) => {
    expect(ask).toThrow(`${name} needs`);
  });
});

it("a finding that was always seen with its cause has a link of all but 1, and a background never seen one of all but 0", () => {
  const { leak, links } = fitNoisyOrLinks([{ causes: [], present: 0, absent: 30 }, { causes: [0], present: 20, absent: 0 }], 1);
  expect(leak).toBeLessThan(1e-6);
  expect(links[0]).toBeGreaterThan(1 - 1e-6);
});
