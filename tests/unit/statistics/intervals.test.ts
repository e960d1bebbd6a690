import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { poissonInterval } from "@/lib/domain/statistics/poisson-interval";
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";

const confidence = fc.double({ min: 0.5, max: 0.999, noNaN: true });

describe("a rate", () => {
  it("lies within its limits, which are finite and narrow as the count grows", () => {
    fc.assert(
      fc.property(fc.nat(3000), fc.double({ min: 0.01, max: 1e6, noNaN: true }), confidence, (count, exposure, level) => {
        const { estimate, lower, upper } = poissonInterval(count, exposure, level);
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(upper).toBeGreaterThan(estimate);
        expect(Number.isFinite(upper)).toBe(true);
        const fourfold = poissonInterval(4 * count, 4 * exposure, level);
        expect(fourfold.upper - fourfold.lower).toBeLessThan(upper - lower);
      }),
    );
  });

  it.each([
    [-1, 10],
    [1.5, 10],
    [Number.NaN, 10],
    [1, 0],
    [1, -3],
    [1, Number.POSITIVE_INFINITY],
    [1, Number.NaN],
  ])("of %s events in %s is refused", (count, exposure) => {
    expect(() => poissonInterval(count, exposure, 0.9)).toThrow("poissonInterval needs");
  });
});

describe("a share", () => {
  it("lies within its limits, which lie within 0 and 1", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.double({ min: 0, max: 1, noNaN: true }), confidence, (trials, part, level) => {
        const successes = Math.round(part * trials);
        const { estimate, lower, upper } = wilsonInterval(successes, trials, level);
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(upper).toBeGreaterThanOrEqual(estimate);
        expect(upper).toBeLessThanOrEqual(1);
      }),
    );
  });

  it.each([
    [0, 0],
    [2, 1],
    [-1, 4],
    [0.5, 4],
  ])("of %s in %s is refused", (successes, trials) => {
    expect(() => wilsonInterval(successes, trials, 0.9)).toThrow("wilsonInterval needs");
  });
});
