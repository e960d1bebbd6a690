import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lastingRise } from "@/lib/domain/statistics/lasting-rise";
import { atLeastOfUncertain } from "@/lib/domain/statistics/predictive-count";
import { Random } from "../../../seed/random";

const raisedRatio = 2;

/** Events of months that go as expected, times a level drawn once for all of them. */
function played(random: Random, expected: readonly number[], shape: number) {
  // A sum of so many exponential times is a gamma of that shape.
  const level = Number.isFinite(shape) ? Array.from({ length: shape }, () => random.exponential(1 / shape)).reduce((sum, part) => sum + part, 0) : 1;
  return expected.map((mean) => {
    let count = -1;
    for (let waited = 0; waited <= mean * level; waited += random.exponential(1)) count += 1;
    return { count, expected: mean };
  });
}

describe("a lasting rise", () => {
  it.each([
    { name: "a level that is known", shape: Number.POSITIVE_INFINITY, expected: [0.6, 0.6, 0.5, 0.4, 0.1] },
    { name: "a level known within a third", shape: 9, expected: [2, 2.5, 1.8, 3, 1.2, 0.3] },
    { name: "a level hardly known, many events", shape: 4, expected: [20, 25, 5] },
  ])("is as rare by chance as it says: $name", ({ shape, expected }) => {
    const random = Random.forTheme(1, "rises");
    const chances = Array.from({ length: 20_000 }, () => lastingRise(played(random, expected, shape), { relativeVariance: 1 / shape, raisedRatio }).chance);
    for (const line of [0.2, 0.05, 0.01]) {
      // What comes in steps falls at or under a line as often as at or under the step below it.
      const step = Math.max(0, ...chances.filter((chance) => chance <= line));
      const share = chances.filter((chance) => chance <= line).length / chances.length;
      expect(Math.abs(share - step)).toBeLessThan(4 * Math.sqrt(step / chances.length));
      expect(step).toBeGreaterThan(line / 3);
    }
  });

  it("in one month has the chance of that many events", () => {
    const { chance, likelyStart } = lastingRise([{ count: 9, expected: 2 }], { relativeVariance: 0.3, raisedRatio });
    expect(chance).toBeCloseTo(atLeastOfUncertain(9, 2, 0.3), 12);
    expect(likelyStart).toBe(0);
  });

  it("is none once it has ended", () => {
    const months = [1, 1, 9, 8, 0, 0, 0, 0, 0].map((count) => ({ count, expected: 2 }));
    expect(lastingRise(months.slice(0, 4), { relativeVariance: 0, raisedRatio })).toMatchObject({ likelyStart: 2 });
    expect(lastingRise(months, { relativeVariance: 0, raisedRatio })).toMatchObject({ chance: 1, likelyStart: null });
  });

  it("is less rare the less is known, and rarer the more there is of it, however many events there are", () => {
    const month = fc.record({ count: fc.nat(400), expected: fc.constantFrom(0, 0.01, 1, 30, 400) });
    fc.assert(
      fc.property(fc.array(month, { minLength: 1, maxLength: 14 }), (months) => {
        const known = lastingRise(months, { relativeVariance: 0, raisedRatio });
        const unsure = lastingRise(months, { relativeVariance: 0.2, raisedRatio });
        for (const { chance } of [known, unsure]) expect(chance >= 0 && chance <= 1).toBe(true);
        const more = months.map(({ count, expected }, place) => ({ count: count + (place === months.length - 1 ? 5 : 0), expected }));
        expect(lastingRise(more, { relativeVariance: 0.2, raisedRatio }).chance).toBeLessThanOrEqual(unsure.chance + 1e-9);
      }),
      { numRuns: 30 },
    );
  });
});
