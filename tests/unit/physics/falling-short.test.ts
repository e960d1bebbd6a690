import { describe, expect, it } from "vitest";
import { chanceShort } from "@/lib/domain/physics/chance-short";
import { crankcaseMargin, ventHoseMargin } from "@/lib/domain/physics/crankcase-margins";
import { drainSlopeMargin, drainWidthMargin, headBudgetMargin, type OilSent } from "@/lib/domain/physics/drain-margins";
import { inletHeadM } from "@/lib/domain/physics/drain-inlet";
import { type Estimate, lognormal, normal } from "@/lib/domain/physics/estimate";
import { feedMargin } from "@/lib/domain/physics/feed-margin";
import { restrictorFlowM3S } from "@/lib/domain/physics/feed-restrictor";
import { drainCapacityM3S, neededSlope, SMOOTH_ROUGHNESS_M } from "@/lib/domain/physics/gravity-drain";
import { filterMargin } from "@/lib/domain/physics/intake-margin";
import { headOfOilM } from "@/lib/domain/physics/oil-head";
import { propagate } from "@/lib/domain/physics/propagate";
import { normalProbability } from "@/lib/domain/statistics/normal";
import { seededNormals } from "./seeded-normals";

const L_MIN = 0.001 / 60;
const DRAWS = 40_000;
/** Three standard errors of a simulated chance, and a hundredth for what the method leaves out. */
const CLOSE = 3 * Math.sqrt(0.25 / DRAWS) + 0.01;

const oil: OilSent = { flowM3S: lognormal(2.5 * L_MIN, 0.5), kinematicViscosityM2S: lognormal(11e-6, 0.2), liquidShare: lognormal(0.6, 0.15) };

/** Share of seeded draws in which what is available is less than what is needed. */
function simulated(isShort: (draw: (estimate: Estimate) => number) => boolean): number {
  const deviate = seededNormals(20261125);
  const draw = (estimate: Estimate) =>
    estimate.kind === "normal" ? estimate.mean + estimate.spread * deviate() : estimate.median * Math.exp(estimate.logSpread * deviate());
  let short = 0;
  for (let i = 0; i < DRAWS; i++) if (isShort(draw)) short++;
  return short / DRAWS;
}

describe("the probability of falling short", () => {
  it("has a closed form for two normal and for two lognormal quantities", () => {
    expect(chanceShort(normal(10, 2), normal(12, 1))).toBeCloseTo(normalProbability(2 / Math.sqrt(5)), 14);
    expect(chanceShort(lognormal(10, 0.3), lognormal(12, 0.4))).toBeCloseTo(normalProbability(Math.log(1.2) / 0.5), 14);
  });

  it("of a mixed pair is a whole with its opposite, and meets the simulation", () => {
    for (const [low, high] of [[normal(0.2, 0.05), lognormal(0.15, 0.6)], [normal(0.02, 0.05), lognormal(0.1, 0.1)], [normal(100, 1), lognormal(99, 0.3)], [normal(1, 0.5), lognormal(1, 0.01)]] as const) {
      const short = chanceShort(low, high);
      expect(short + chanceShort(high, low)).toBeCloseTo(1, 10);
      expect(Math.abs(short - simulated((draw) => draw(low) < draw(high)))).toBeLessThan(CLOSE);
    }
  });

  it("of a mixed pair does not depend on which of the two is averaged over", () => {
    for (const scale of [0.5, 0.99999, 1.00001, 2]) {
      const before = chanceShort(normal(1, 0.2), lognormal(1, 0.2 * scale * 0.99999));
      const after = chanceShort(normal(1, 0.2), lognormal(1, 0.2 * scale * 1.00001));
      expect(Math.abs(before - after)).toBeLessThan(1e-5);
    }
  });

  it("needs spreads: nothing that is measured is exact", () => {
    expect(() => normal(1, 0)).toThrow("spread");
    expect(() => lognormal(0, 0.1)).toThrow("median");
    expect(() => normal(Number.NaN, 1)).toThrow("mean");
  });

  it("multiplies spreads by the power that an input has: exact for powers", () => {
    const { median, logSpread } = propagate((bore, viscosity) => bore ** 4 / viscosity, [lognormal(2, 0.05), lognormal(3, 0.2)]);
    expect(median).toBeCloseTo(16 / 3, 12);
    expect(logSpread).toBeCloseTo(Math.hypot(0.2, 0.2), 12);
  });
});

describe("each margin meets a simulation of the whole formula", () => {
  const share = (value: number) => Math.min(1, value);

  it.each([[8, 0], [12, 2], [14, 0], [19, 3]])("width of a drain of %i mm with %i elbows", (boreMm, elbows) => {
    const width = { boreM: lognormal(boreMm / 1000, 1 / boreMm), elbows, lengthM: lognormal(0.35, 0.3) };
    const slope = lognormal(0.35, 0.3);
    const short = simulated((draw) => {
      const line = { boreM: draw(width.boreM), elbows, lengthM: draw(width.lengthM), depthRatio: 0.5, roughnessM: SMOOTH_ROUGHNESS_M };
      return drainCapacityM3S(draw(slope), line, { kinematicViscosityM2S: draw(oil.kinematicViscosityM2S), liquidShare: share(draw(oil.liquidShare)) }) < draw(oil.flowM3S);
    });
    expect(Math.abs(drainWidthMargin(width, slope, oil).fallingShort - short)).toBeLessThan(CLOSE);
  });

  it.each([[-3, 2], [0, 3], [5, 2], [12, 3], [30, 5]])("slope of %i degrees, good to %i", (degrees, spread) => {
    const width = { boreM: lognormal(0.019, 0.05), elbows: 0, lengthM: lognormal(0.35, 0.3) };
    const slope = normal(Math.sin((degrees * Math.PI) / 180), (spread * Math.PI) / 180);
    const short = simulated((draw) => {
      const line = { boreM: draw(width.boreM), elbows: 0, lengthM: draw(width.lengthM), depthRatio: 0.5, roughnessM: SMOOTH_ROUGHNESS_M };
      return draw(slope) < neededSlope(draw(oil.flowM3S), line, { kinematicViscosityM2S: draw(oil.kinematicViscosityM2S), liquidShare: share(draw(oil.liquidShare)) });
    });
    expect(Math.abs(drainSlopeMargin(slope, width, oil).fallingShort - short)).toBeLessThan(CLOSE);
  });

  it.each([[60, 0.2], [120, 0.5], [200, 0.2], [150, -0.5]])("head budget of %i mm with %f kPa", (fallMm, kPa) => {
    const width = { boreM: lognormal(0.015, 0.07), elbows: 1, lengthM: lognormal(0.35, 0.15) };
    const fall = normal(fallMm / 1000, 0.01);
    const crankcase = normal(kPa * 1000, 50);
    const short = simulated((draw) => {
      const line = { boreM: draw(width.boreM), elbows: 1, lengthM: draw(width.lengthM), depthRatio: 0.5, roughnessM: SMOOTH_ROUGHNESS_M };
      const flow = draw(oil.flowM3S);
      const liquidShare = share(draw(oil.liquidShare));
      const loss = neededSlope(flow, line, { kinematicViscosityM2S: draw(oil.kinematicViscosityM2S), liquidShare }) * line.lengthM;
      return draw(fall) - headOfOilM(draw(crankcase)) - inletHeadM(flow / liquidShare, line.boreM) < loss;
    });
    expect(Math.abs(headBudgetMargin(fall, crankcase, width, oil).fallingShort - short)).toBeLessThan(CLOSE);
  });

  it.each([0.1, 0.5, 1, -1])("crankcase at %f kPa against half of a fall known within a third", (kPa) => {
    const [pressure, fall] = [normal(kPa * 1000, 60), lognormal(0.12, 0.33)];
    const short = simulated((draw) => draw(fall) * draw(lognormal(0.5, 0.45)) < headOfOilM(draw(pressure)));
    expect(Math.abs(crankcaseMargin(pressure, fall).fallingShort - short)).toBeLessThan(CLOSE);
  });

  it("feed through a restrictor", () => {
    const [bore, pressure, most] = [lognormal(0.0013, 0.1), lognormal(350_000, 0.1), lognormal(1.9 * L_MIN, 0.2)];
    const short = simulated((draw) => draw(most) < restrictorFlowM3S(draw(bore), draw(pressure)));
    expect(Math.abs(feedMargin(bore, pressure, most).fallingShort - short)).toBeLessThan(CLOSE);
  });
});

describe("each margin moves the right way and tells where it comes from", () => {
  const narrow = { boreM: lognormal(0.012, 0.08), lengthM: lognormal(1.5, 0.3) };
  const fall = lognormal(0.12, 0.4);
  const engine = (litres: number) => ({ displacementM3: lognormal(litres / 1000, 0.02), speedPerS: lognormal(70, 0.1), boostPa: lognormal(130_000, 0.15) });

  it.each([
    ["vent bore", [6, 8, 10, 12, 16, 22].map((mm) => ventHoseMargin({ ...narrow, boreM: lognormal(mm / 1000, 0.08) }, lognormal(70 * L_MIN, 0.5), fall))],
    ["blow-by, falling", [200, 150, 100, 60, 30].map((flow) => ventHoseMargin(narrow, lognormal(flow * L_MIN, 0.3), fall))],
    ["crankcase pressure, falling", [2, 1, 0.5, 0.2, 0, -1].map((kPa) => crankcaseMargin(normal(kPa * 1000, 60), fall))],
    ["rated flow of the filter", [150, 300, 450, 600, 900].map((m3H) => filterMargin(lognormal(m3H / 3600, 0.05), engine(2)))],
    ["displacement, falling", [6.7, 4, 3, 2, 1.4].map((litres) => filterMargin(lognormal(450 / 3600, 0.05), engine(litres)))],
    ["restrictor, narrowing", [3, 2, 1.5, 1, 0.8].map((mm) => feedMargin(lognormal(mm / 1000, 0.05), lognormal(300_000, 0.1), lognormal(1.9 * L_MIN, 0.2)))],
  ])("%s", (_, margins) => {
    for (const [i, { fallingShort, margin, source }] of margins.entries()) {
      expect(fallingShort).toBeGreaterThanOrEqual(0);
      expect(fallingShort).toBeLessThanOrEqual(1);
      expect(source).not.toBe("");
      expect(margin > 0).toBe(fallingShort < 0.5);
      if (i > 0) expect(fallingShort).toBeLessThan(margins[i - 1]?.fallingShort ?? 0);
    }
  });

  it("the normal distribution function is accurate far into the tail", () => {
    // Published tables: Abramowitz and Stegun (1964), table 26.1 and 26.2.
    expect(normalProbability(-1)).toBeCloseTo(0.158655253931457, 14);
    expect(normalProbability(-5) / 2.866515719e-7).toBeCloseTo(1, 9);
  });
});
