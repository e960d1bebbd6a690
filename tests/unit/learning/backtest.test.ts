import { describe, expect, it } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import { backtestResult, readDifference, scoreLaterVerdict, startBacktest } from "@/lib/domain/learning/backtest";
import { forecast } from "@/lib/domain/learning/forecast";
import { forecastScores, type ScoredVerdict, scoresOfVerdict } from "@/lib/domain/learning/forecast-scores";
import { bootstrapMean, seededRandom } from "@/lib/domain/statistics/bootstrap-interval";
import { simulateShop } from "@/tests/builders/simulated-verdicts";

const { examples } = simulateShop(2, 60);

function aVerdict(probabilities: readonly number[], primary: string, contributing: readonly string[] = []): ScoredVerdict {
  return { causes: ["A", "B", "C"], probabilities, unitDefective: 0.1, primary, present: new Set([primary, ...contributing]), isUnit: false };
}

describe("the forecast of a claim", () => {
  it("is what its ranking shows", () => {
    for (const { firstContact, later, kit, vehicle } of examples) {
      const observations = [...firstContact, ...later];
      const ranking = rankCauses(observations, edition1, { kit, vehicle });
      const { probabilities, unitDefective } = forecast(observations, edition1, { kit, vehicle });
      if (ranking.outcome !== "ranked") throw new Error("a simulated claim contradicts itself");
      for (const { code, probability } of ranking.causes) expect(probabilities[edition1.causes.findIndex((cause) => cause.code === code)]).toBeCloseTo(probability, 12);
      expect(unitDefective).toBeCloseTo(ranking.unitDefective, 12);
    }
  });
});

describe("the scores of a verdict", () => {
  it("follow from the place of the primary cause and from what was there", () => {
    const scores = scoresOfVerdict(aVerdict([0.5, 0.3, 0.2], "B", ["A"]));
    expect(scores.reciprocalRank).toBe(1 / 2);
    expect(scores.led).toBe(0);
    expect(scores.brier).toBeCloseTo((0.25 + 0.49 + 0.04) / 3, 12);
    expect(scores.logLoss).toBeCloseTo(-(Math.log(0.5) + Math.log(0.3) + Math.log(0.8)) / 3, 12);
    expect(scores.multiClassLogLoss).toBeCloseTo(-Math.log(0.3), 12);
  });

  it("give a tie no credit", () => {
    expect(scoresOfVerdict(aVerdict([0.4, 0.4, 0.1], "A"))).toMatchObject({ led: 0, reciprocalRank: 1 / 2 });
  });
});

describe("the scores of an edition", () => {
  it("have no skill where it says what the shares say", () => {
    const verdicts = ["A", "A", "B", "C"].map((primary) => aVerdict([0.5, 0.25, 0.25], primary));
    expect(forecastScores(verdicts, new Map([["A", 0.5], ["B", 0.25], ["C", 0.25]])).skill).toBeCloseTo(0, 12);
    expect(forecastScores(verdicts, null).skill).toBeNull();
  });

  it("put every forecast into a bin with its count and interval", () => {
    const { bins } = forecastScores(["A", "B", "C"].map((primary) => aVerdict([0.9, 0.05, 0.05], primary)), null);
    expect(bins.map(({ bin, count, happened }) => [bin, count, happened])).toEqual([[0, 6, 2], [9, 3, 1]]);
    for (const { share } of bins) expect(share.lower < share.estimate && share.estimate < share.upper).toBe(true);
  });
});

describe("a backtest", () => {
  it("finds no difference between an edition and itself", () => {
    const under = startBacktest(edition1, edition1);
    expect(examples.every((example) => scoreLaterVerdict(under, example))).toBe(true);
    const result = backtestResult(under, new Map(), seededRandom(1));
    expect(result.map(({ view }) => view)).toEqual(["first contact", "customer's word", "all findings"]);
    for (const { before, after, differences } of result) {
      expect(after).toEqual(before);
      expect(readDifference("logLoss", differences.logLoss)).toBe("may be chance");
    }
  });

  it("leaves out a verdict on a cause that one of the editions does not know", () => {
    const under = startBacktest(edition1, { ...edition1, causes: edition1.causes.slice(1) });
    expect(scoreLaterVerdict(under, { ...(examples[0] as (typeof examples)[number]), primary: "C01" })).toBe(false);
    expect(backtestResult(under, new Map(), seededRandom(1))).toEqual([]);
  });

  it("reads a difference by its limits and by which way is better", () => {
    expect(readDifference("brier", { estimate: -1, lower: -2, upper: -0.1 })).toBe("better");
    expect(readDifference("led", { estimate: -1, lower: -2, upper: -0.1 })).toBe("worse");
    expect(readDifference("led", { estimate: 1, lower: -0.1, upper: 2 })).toBe("may be chance");
  });
});

describe("the bootstrap of a mean", () => {
  it("is the same for the same seed, holds the mean, and narrows as cases are added", () => {
    const draw = seededRandom(3);
    const values = Array.from({ length: 100 }, () => draw());
    const interval = bootstrapMean(values, 0.95, 500, seededRandom(9));
    expect(bootstrapMean(values, 0.95, 500, seededRandom(9))).toEqual(interval);
    expect(interval.lower < interval.estimate && interval.estimate < interval.upper).toBe(true);
    const wide = bootstrapMean(values.slice(0, 25), 0.95, 500, seededRandom(9));
    expect((wide.upper - wide.lower) / (interval.upper - interval.lower)).toBeGreaterThan(1.4);
    // Two normal deviates either way: the standard error is that of a uniform over 0..1.
    expect(interval.upper - interval.lower).toBeCloseTo((2 * 1.96 * Math.sqrt(1 / 12)) / 10, 1);
  });
});
