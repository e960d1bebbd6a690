import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type DiscreteTest, discreteFalseDiscoveryRates } from "@/lib/domain/statistics/discrete-false-discovery";

/** One that can come out with any p-value. */
const continuous = (pValue: number): DiscreteTest => ({ pValue, attainableUpTo: (line) => line });

describe("false discovery rates of tests that come out in steps", () => {
  it("are the same under a line whether or not those above it are of interest", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1e-9, max: 1, noNaN: true }), { minLength: 1, maxLength: 30 }), (pValues) => {
        const rates = discreteFalseDiscoveryRates(pValues.map(continuous), 0.1);
        discreteFalseDiscoveryRates(pValues.map(continuous), 1).forEach((rate, place) => {
          if (rate < 0.1 - 1e-12) expect(rates[place]).toBeCloseTo(rate, 12);
          if (rate > 0.1 + 1e-12) expect(rates[place]).toBeGreaterThan(0.1);
        });
      }),
    );
  });

  it("do not rise by tests that cannot come out below the line", () => {
    const hopeless: DiscreteTest = { pValue: 1, attainableUpTo: () => 0 };
    expect(discreteFalseDiscoveryRates([continuous(0.01), ...Array.from({ length: 50 }, () => hopeless)], 0.1)[0]).toBe(0.01);
  });

  it("count a fault that shows in many tests once, so that it makes no room for false ones", () => {
    const ofOneFault = Array.from({ length: 10 }, () => continuous(1e-6));
    const byChance = continuous(0.01);
    const others = Array.from({ length: 59 }, () => continuous(0.5));
    const tests = [...ofOneFault, byChance, ...others];
    expect(discreteFalseDiscoveryRates(tests, 0.1)[10]).toBeLessThan(0.1);
    const [fault, chance] = discreteFalseDiscoveryRates(tests, 0.1, [continuous(1e-6), byChance]);
    expect(fault).toBeCloseTo(70e-6, 12);
    expect(chance).toBeGreaterThan(0.1);
  });
});
