import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { eachMonthOf } from "@/lib/domain/reporting/month";
import { fittedShare, shareClaimedBy, timeToClaim, verdictOf } from "@/lib/domain/reporting/time-to-claim";
import { survivalCurve } from "@/lib/domain/statistics/survival-curve";
import { fitWeibull } from "@/lib/domain/statistics/weibull-fit";

const TODAY = "2026-11-25";
const MONTHS = eachMonthOf({ from: "2024-01", to: "2026-06" });
const UNITS = new Map(MONTHS.map((month) => [month, 400]));

/** Claims with so many in each month of service, from units old enough to have them. */
const claimsWith = (perAge: readonly number[]) => perAge.map((claims, monthInService) => ({ month: "2024-01", monthInService, claims }));
const life = (perAge: readonly number[], others: readonly number[] = []) => timeToClaim({ units: UNITS, claims: claimsWith(perAge), others: claimsWith(others), today: TODAY });

it("several units in one line are as good as a line each", () => {
  const singly = [...Array.from({ length: 3 }, () => ({ time: 2, failed: true })), ...Array.from({ length: 5 }, () => ({ time: 4, failed: false })), { time: 5, failed: true }, { time: 9, failed: false }];
  const together = [{ time: 2, failed: true, units: 3 }, { time: 4, failed: false, units: 5 }, { time: 5, failed: true, units: 1 }, { time: 9, failed: false }];
  expect(survivalCurve(together, 0.9)).toEqual(survivalCurve(singly, 0.9));
  const [one, other] = [fitWeibull(singly, 0.9), fitWeibull(together, 0.9)];
  if (one.kind !== "fitted" || other.kind !== "fitted") throw new Error("both must be fitted");
  for (const part of ["shape", "scale", "tenPercent"] as const) for (const limit of ["estimate", "lower", "upper"] as const) expect(other[part][limit]).toBeCloseTo(one[part][limit], 9);
  expect(other.logLikelihood).toBeCloseTo(one.logLikelihood, 9);
});

describe("what the shape says", () => {
  it("claims that die out are faults of the start", () => expect(life([60, 20, 8, 4, 2, 1, 1, 0, 1]).verdict).toBe("infant"));
  it("claims alike at any age come at random", () => {
    const units = new Map([["2023-01", 40_000]]);
    const claims = Array.from({ length: 45 }, (_, monthInService) => ({ month: "2023-01", monthInService, claims: 40 }));
    expect(timeToClaim({ units, claims, others: [], today: TODAY }).verdict).toBe("random");
  });
  it("claims that grow with age are wear", () => expect(life(Array.from({ length: 30 }, (_, age) => Math.floor(age / 3))).verdict).toBe("wear"));
  it("a few claims here and there cannot be told", () => expect(life([1, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0, 0, 0, 1, 1]).verdict).toBe("cannot-tell"));
  it("under five claims say nothing, however steep", () => expect(life([4]).verdict).toBe("cannot-tell"));
  it("nothing fitted says nothing", () => expect(verdictOf({ kind: "too-few-failures", failures: 1 })).toBe("cannot-tell"));
});

it("a claim that outlives what its fellows are reckoned to be is one of them all, not one of hardly any left", () => {
  const claims = [0, 2, 3].map((monthInService) => ({ month: "2026-08", monthInService, claims: 1 }));
  const { curve } = timeToClaim({ units: new Map([["2026-08", 200]]), claims, others: [], today: "2026-11-17" });
  expect(curve.steps.at(-1)?.survival).toBeCloseTo(197 / 200, 2);
});

it("of units that are not fitted yet by the usual delay nothing is told, though one has claimed", () => {
  const life = timeToClaim({ units: new Map([["2026-11", 50]]), claims: [{ month: "2026-11", monthInService: 0, claims: 1 }], others: [], today: TODAY });
  expect(life).toMatchObject({ claims: 1, notFittedYet: 49, rate: null, curve: { steps: [] } });
});

describe("what is hardly anything", () => {
  it("without a claim there is a bound and no curve to draw", () => {
    const none = life([]);
    expect(none).toMatchObject({ claims: 0, verdict: "cannot-tell", fit: { kind: "too-few-failures" } });
    expect(none.upperBound).toBeCloseTo((1000 * -Math.log(0.05)) / none.unitMonths);
    expect(shareClaimedBy(none, 3)).toBeNull();
  });

  it("nothing shipped, or nothing in service yet, has no rate and no bound", () => {
    expect(timeToClaim({ units: new Map(), claims: [], others: [], today: TODAY })).toMatchObject({ units: 0, claims: 0, rate: null, upperBound: null, longest: 0 });
    expect(timeToClaim({ units: new Map([["2026-11", 50]]), claims: [], others: [], today: TODAY })).toMatchObject({ units: 50, notFittedYet: 50, rate: null, upperBound: null });
  });

  it("one claim is counted and tells no shape", () => expect(life([1])).toMatchObject({ claims: 1, fit: { kind: "too-few-failures", failures: 1 } }));

  it("claims without known shipments are lives of their own", () => {
    const alone = timeToClaim({ units: new Map(), claims: claimsWith([3, 2, 1]), others: [], today: TODAY });
    expect(alone).toMatchObject({ units: 0, claims: 6 });
  });
});

it("units that claimed for something else leave the watch when they do", () => {
  const alone = life([10, 5]);
  const beside = life([10, 5], [200, 100]);
  expect(beside.claims).toBe(alone.claims);
  expect(shareClaimedBy(beside, 2)?.estimate).toBeGreaterThan(shareClaimedBy(alone, 2)?.estimate ?? 1);
});

it("whatever the lives, shares lie between 0 and 1, grow with age and lie within their bands", () => {
  const line = fc.record({ month: fc.constantFrom(...MONTHS), monthInService: fc.integer({ min: 0, max: 40 }), claims: fc.integer({ min: 0, max: 60 }) });
  fc.assert(
    fc.property(fc.array(line, { maxLength: 25 }), fc.array(line, { maxLength: 10 }), (claims, others) => {
      const told = timeToClaim({ units: UNITS, claims, others, today: TODAY });
      let before = 0;
      for (let month = 1; month <= told.longest; month += 1) {
        const share = shareClaimedBy(told, month);
        if (!share) continue;
        expect(share.lower).toBeGreaterThanOrEqual(0);
        expect(share.upper).toBeLessThanOrEqual(1);
        expect(share.estimate).toBeGreaterThanOrEqual(before);
        expect(share.lower <= share.estimate + 1e-12 && share.estimate <= share.upper + 1e-12).toBe(true);
        before = share.estimate;
        const fitted = fittedShare(told.fit, month);
        if (fitted !== null) expect(fitted >= 0 && fitted <= 1).toBe(true);
      }
    }),
    { numRuns: 100 },
  );
});
