import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { costPerClaim, forecastClaims, forecastCost } from "@/lib/domain/reporting/forecast";
import { eachMonthOf, monthsLater } from "@/lib/domain/reporting/month";

const TODAY = "2026-11-25";
const SHIPPED = eachMonthOf({ from: "2025-01", to: "2026-11" });

/** Each month's units bring so many claims in each month since. */
function aHistory(perAge: readonly number[], units = 100) {
  return {
    units: new Map(SHIPPED.map((month) => [month, units])),
    claims: SHIPPED.flatMap((month) => perAge.map((claims, age) => ({ month, filed: monthsLater(month, age), claims }))).filter(({ filed }) => filed <= "2026-11"),
    today: TODAY,
  };
}

describe("claims to come", () => {
  it("are those that older units had at the same age, from the first of this month", () => {
    const forecast = forecastClaims({ ...aHistory([4, 3, 2]), horizonMonths: 3 });
    // This month: the newest units their first, those of a month ago their second, those of two their third.
    expect(forecast?.months.map(({ claims }) => claims)).toEqual([expect.closeTo(9), expect.closeTo(5), expect.closeTo(2)]);
    expect(forecast?.months.at(-1)?.upTo.estimate).toBeCloseTo(16);
  });

  it("agree with the chain ladder where every month is alike", () => {
    const until = forecastClaims({ ...aHistory([4, 3, 2]), horizonMonths: 1 })?.untilOldest;
    expect(until?.byAge.estimate).toBeCloseTo(2 + 2 + 3);
    expect(until?.byLadder?.estimate).toBeCloseTo(7);
  });

  it("are at least so many where units grow older than any has been", () => {
    expect(forecastClaims({ ...aHistory([1]), horizonMonths: 1 })?.months[0]?.isAtLeast).toBe(true);
    const old = { units: new Map([["2024-01", 10], ["2024-02", 0]]), claims: [], today: TODAY };
    expect(forecastClaims({ ...old, horizonMonths: 1 })?.months[0]?.isAtLeast).toBe(true);
  });

  it("are not told by the few units of an age that hardly any has reached", () => {
    const units = new Map([["2025-01", 2], ...eachMonthOf({ from: "2026-01", to: "2026-11" }).map((month): [string, number] => [month, 100])]);
    const forecast = forecastClaims({ units, claims: [{ month: "2025-01", filed: "2026-10", claims: 1 }], today: TODAY, horizonMonths: 24 });
    expect(forecast?.oldestAge).toBe(9);
    expect(forecast?.months.at(-1)?.upTo.upper).toBeLessThan(60);
  });

  it("are none without claims, with an upper limit above none", () => {
    const forecast = forecastClaims({ ...aHistory([0]), horizonMonths: 6 });
    expect(forecast?.months.at(-1)?.upTo).toMatchObject({ estimate: 0, lower: 0 });
    expect(forecast?.months.at(-1)?.upTo.upper).toBeGreaterThan(0);
    expect(forecast?.untilOldest?.byLadder).toBeNull();
  });

  it("cannot be told where nothing was shipped, or only this month or later", () => {
    for (const units of [new Map<string, number>(), new Map([["2026-11", 50]]), new Map([["2027-03", 50]])]) expect(forecastClaims({ units, claims: [], today: TODAY, horizonMonths: 6 })).toBeNull();
  });

  it("whatever the history, grow with the months and lie within finite limits", () => {
    const line = fc.record({ month: fc.constantFrom(...SHIPPED), age: fc.integer({ min: 0, max: 22 }), claims: fc.integer({ min: 0, max: 40 }) });
    fc.assert(
      fc.property(fc.array(line, { maxLength: 40 }), fc.array(fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 500, noNaN: true })), { minLength: 23, maxLength: 23 }), (lines, sizes) => {
        const forecast = forecastClaims({
          units: new Map(SHIPPED.map((month, index) => [month, sizes[index] ?? 0])),
          claims: lines.map(({ month, age, claims }) => ({ month, filed: monthsLater(month, age), claims })),
          today: TODAY,
          horizonMonths: 12,
        });
        let before = 0;
        for (const { upTo, claims } of forecast?.months ?? []) {
          expect(claims).toBeGreaterThanOrEqual(-1e-9);
          expect(upTo.estimate).toBeGreaterThanOrEqual(before - 1e-9);
          expect([upTo.lower, upTo.estimate, upTo.upper].every(Number.isFinite)).toBe(true);
          expect(upTo.lower <= upTo.estimate + 1e-9 && upTo.estimate <= upTo.upper + 1e-9).toBe(true);
          before = upTo.estimate;
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe("what a claim costs", () => {
  it("counts those in that cost nothing", () => {
    const [cost] = costPerClaim([{ currency: "EUR", paid: 8, totalMinor: 80_000, squaredMinor: 8 * 10_000 ** 2 }], 20);
    expect(cost).toMatchObject({ ended: 20, paid: 8, meanMinor: 4000 });
    expect(cost?.deviationMinor).toBeCloseTo(10_000 * Math.sqrt(0.4 * 0.6 * (20 / 19)));
  });

  it("is not told where none has ended, or none cost anything", () => {
    expect(costPerClaim([{ currency: "EUR", paid: 1, totalMinor: 100, squaredMinor: 10_000 }], 0)).toEqual([]);
    expect(costPerClaim([{ currency: "EUR", paid: 0, totalMinor: 0, squaredMinor: 0 }], 5)).toEqual([]);
  });

  it("of so many claims is spread by how many come, how unlike they are and how well the mean is known", () => {
    const claims = { estimate: 20, lower: 13, upper: 29 };
    const few = forecastCost(claims, { currency: "EUR", ended: 12, paid: 6, meanMinor: 4000, deviationMinor: 9000 });
    const many = forecastCost(claims, { currency: "EUR", ended: 1200, paid: 600, meanMinor: 4000, deviationMinor: 9000 });
    const alike = forecastCost(claims, { currency: "EUR", ended: 1200, paid: 1200, meanMinor: 4000, deviationMinor: 0 });
    const width = (of: typeof few) => of.upper - of.lower;
    expect(few.estimate).toBe(80_000);
    expect(width(few)).toBeGreaterThan(width(many));
    expect(width(many)).toBeGreaterThan(width(alike));
    expect(alike.lower).toBeGreaterThan(0);
    expect(forecastCost({ estimate: 0, lower: 0, upper: 3 }, { currency: "EUR", ended: 9, paid: 9, meanMinor: 100, deviationMinor: 50 })).toEqual({ estimate: 0, lower: 0, upper: 300 });
    expect(forecastCost({ estimate: 10, lower: 6, upper: 15 }, { currency: "EUR", ended: 9, paid: 9, meanMinor: 100, deviationMinor: 0 })).toEqual({ estimate: 1000, lower: 600, upper: 1500 });
  });
});
