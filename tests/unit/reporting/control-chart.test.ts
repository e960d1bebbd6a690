import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { controlChart, type MonthToChart } from "@/lib/domain/reporting/control-chart";
import { findChanges } from "@/lib/domain/reporting/control-chart-change";
import { completenessOf, filingDelay } from "@/lib/domain/reporting/control-chart-delay";
import { ageWeights, monthsOfFiling, monthsOfShipping } from "@/lib/domain/reporting/control-chart-months";
import { seasonOf } from "@/lib/domain/reporting/control-chart-season";
import { eachMonthOf, monthsLater } from "@/lib/domain/reporting/month";

/** The same numbers on every run, evenly from 0 to before 1. */
function luck(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A count of this mean, by the product of even numbers. */
function drawCount(mean: number, next: () => number): number {
  const least = Math.exp(-mean);
  let product = next();
  let count = 0;
  while (product > least) {
    product *= next();
    count += 1;
  }
  return count;
}

function aHistory(claims: readonly number[], { exposure = 1000, from = "2023-01", share = 1 } = {}): MonthToChart[] {
  return claims.map((of, index) => ({ month: monthsLater(from, index), claims: of, exposure, share, relativeVariance: 0 }));
}

/** All numbers anywhere in a value. */
function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return value && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}

const WINTER = [3, 2, 1, 0.5, 0.2, 0.2, 0.2, 0.2, 0.5, 0.8, 1.5, 2.5];

describe("a change", () => {
  it("is named with its likely start and how many times the rate before", () => {
    const { changes, season } = controlChart(aHistory([...Array<number>(14).fill(10), ...Array<number>(10).fill(25)]));
    expect(changes.map(({ start }) => start)).toEqual([14]);
    expect(changes[0]?.ratio.estimate).toBeCloseTo(2.5);
    expect(changes[0]?.ratio.lower).toBeGreaterThan(1.9);
    expect(season.kind).not.toBe("season");
  });

  it("that is mended again is two changes, each told by its neighbours", () => {
    const changes = findChanges([8, 8, 8, 8, 8, 8, 8, 8, 24, 24, 24, 24, 24, 24, 8, 8, 8, 8, 8, 8].map((count) => ({ count, size: 1 })), 1);
    expect(changes.map(({ start, ratio }) => [start, ratio.estimate])).toEqual([
      [8, 3],
      [14, 1 / 3],
    ]);
  });

  it("is hardly ever seen in months that differ by chance alone", () => {
    const next = luck(7);
    const seen = Array.from({ length: 300 }, () => controlChart(aHistory(Array.from({ length: 36 }, () => drawCount(6, next)))).changes.length > 0);
    expect(seen.filter(Boolean).length).toBeLessThanOrEqual(6);
  });

  it("that triples a rate is found in most histories, within a month or two of its start", () => {
    const next = luck(11);
    const starts = Array.from({ length: 100 }, () => controlChart(aHistory(Array.from({ length: 30 }, (_, month) => drawCount(month < 20 ? 4 : 12, next)))).changes.at(-1)?.start ?? null);
    expect(starts.filter((start) => start !== null && Math.abs(start - 20) <= 2).length).toBeGreaterThan(85);
  });
});

describe("a season", () => {
  it("is told though the first year had too few claims to show it", () => {
    const first = [0, 1, 1, 1, 2, 1, 0, 1, 0, 0, 0, 0];
    const later = [10, 2, 2, 2, 0, 2, 0, 0, 0, 0, 0, 0, 19, 8, 4, 0, 1, 0, 0, 0, 0, 1, 0, 0];
    const sizes = [5, 14, 20, 24, 31, 36, 37, 36, 36, 36, 38, 39, 38, 37, 37, 38, 44, 48, 49, 48, 48, 46, 49, 50, 48, 47, 47, 48, 55, 61, 61, 61, 59, 57, 59, 22];
    const counted = (counts: readonly number[]) => eachMonthOf({ from: "2023-12", to: "2026-11" }).map((month, place) => ({ month, count: counts[place] ?? 0, size: sizes[place] ?? 0 }));
    expect(seasonOf(counted([...first, ...later]), 1.4)).toMatchObject({ kind: "season", years: 3, peak: 1 });
    // A year with claims enough to show it must.
    const level = sizes.slice(0, 12).map((size) => Math.round(size / 5));
    expect(seasonOf(counted([...level, ...later]), 1.4).kind).toBe("none");
  });

  it("of each winter is named, and is no change", () => {
    const next = luck(3);
    for (let world = 0; world < 20; world += 1) {
      const { season, changes } = controlChart(aHistory(Array.from({ length: 36 }, (_, month) => drawCount(6 * (WINTER[month % 12] ?? 1), next))));
      expect(season.kind === "season" && [12, 1, 2].includes(season.peak)).toBe(true);
      expect(changes).toEqual([]);
    }
  });

  it("of one year alone is none", () => {
    const months = eachMonthOf({ from: "2023-01", to: "2025-12" }).map((month, index) => ({ month, count: index < 12 ? Math.round(10 * (WINTER[index] ?? 1)) : 10, size: 1 }));
    expect(seasonOf(months, 1).kind).toBe("none");
  });

  it("cannot be told from under two years", () => {
    expect(seasonOf(eachMonthOf({ from: "2025-01", to: "2026-11" }).map((month) => ({ month, count: 5, size: 1 })), 1)).toEqual({ kind: "too-short", years: 1 });
  });

  it("is hardly ever seen in months that differ by chance alone", () => {
    const next = luck(19);
    const seen = Array.from({ length: 300 }, () => seasonOf(eachMonthOf({ from: "2023-01", to: "2025-12" }).map((month) => ({ month, count: drawCount(5, next), size: 1 })), 1).kind === "season");
    expect(seen.filter(Boolean).length).toBeLessThanOrEqual(4);
  });

  it("beside a change is told apart from it", () => {
    const next = luck(5);
    const { season, changes } = controlChart(aHistory(Array.from({ length: 36 }, (_, month) => drawCount((month < 20 ? 8 : 24) * (WINTER[month % 12] ?? 1), next))));
    expect(season.kind).toBe("season");
    expect(changes.length).toBeGreaterThan(0);
    expect(changes.every(({ start }) => Math.abs(start - 20) <= 2)).toBe(true);
  });
});

describe("months that wait for claims", () => {
  const filed = eachMonthOf({ from: "2024-01", to: "2026-10" }).flatMap((month) => [0, 1, 2, 3].map((delay) => ({ month, filed: monthsLater(month, delay), claims: [4, 8, 4, 4][delay] ?? 0 }))).filter((line) => line.filed <= "2026-11");
  const units = new Map(eachMonthOf({ from: "2024-01", to: "2026-11" }).map((month) => [month, 1000]));

  it("learn from the older ones how much is still to come", () => {
    const delay = filingDelay(filed, "2026-11-15");
    expect(delay?.shareWithin.slice(0, 4)).toEqual([expect.closeTo(0.2), expect.closeTo(0.6), expect.closeTo(0.8), 1]);
    expect(delay && completenessOf(delay, "2026-09", "2026-11-15").share).toBeCloseTo(0.7);
    expect(delay && completenessOf(delay, "2026-11", "2026-11-15").share).toBeCloseTo(0.1);
    expect(delay && completenessOf(delay, "2026-12", "2026-11-15").share).toBe(0);
  });

  it("are brought to what they will be, and are no improvement", () => {
    const delay = filingDelay(filed, "2026-11-30");
    const { months, changes } = controlChart(monthsOfShipping({ units, claims: filed, verdicts: null, today: "2026-11-30" }, delay, { from: "2024-01", to: "2026-11" }));
    expect(changes).toEqual([]);
    expect(months.find(({ month }) => month === "2026-09")?.rate?.estimate).toBeCloseTo(20);
    expect(months.find(({ month }) => month === "2026-09")?.kind).toBe("incomplete");
    expect(months.at(-1)).toMatchObject({ month: "2026-11", claims: 0 });
  });

  it("have wider limits and intervals the less is known", () => {
    const width = (share: number) => {
      const month = controlChart([...aHistory(Array<number>(12).fill(20)), { month: "2024-01", claims: Math.round(20 * share), exposure: 1000, share, relativeVariance: 0.05 }]).months.at(-1);
      return { limits: (month?.limits?.upper ?? 0) - (month?.limits?.center ?? 0), interval: (month?.rate?.upper ?? 0) - (month?.rate?.lower ?? 0) };
    };
    expect(width(0.4).limits).toBeGreaterThan(width(0.8).limits);
    expect(width(0.4).interval).toBeGreaterThan(width(0.8).interval);
  });

  it("count undecided claims in as the decided ones came out", () => {
    const claims = [{ month: "2026-01", filed: "2026-02", claims: 6 }];
    const verdicts = { all: [{ month: "2026-01", filed: "2026-02", claims: 20 }], undecided: [{ month: "2026-01", filed: "2026-02", claims: 8 }] };
    const [month] = monthsOfShipping({ units: new Map([["2026-01", 100]]), claims, verdicts, today: "2026-11-25" }, null, { from: "2026-01", to: "2026-01" });
    expect(month?.share).toBeCloseTo(0.6);
  });
});

it("months of filing do not fall as the fleet grows older", () => {
  const shipped = eachMonthOf({ from: "2024-01", to: "2026-10" });
  const claims = shipped.flatMap((month) => [30, 10, 1, 1, 1, 1].map((of, delay) => ({ month, filed: monthsLater(month, delay), claims: of }))).filter((line) => line.filed <= "2026-10");
  const times = { units: new Map(shipped.map((month) => [month, 1000])), claims, verdicts: null, today: "2026-10-31" };
  const weights = ageWeights(times);
  expect(weights[0]).toBeGreaterThan(weights[2] ?? 0);
  const { months, changes } = controlChart(monthsOfFiling(times, weights, { from: "2024-01", to: "2026-10" }));
  expect(changes).toEqual([]);
  for (const { rate } of months) expect(rate?.estimate).toBeCloseTo(months[0]?.rate?.estimate ?? 0);
});

it("a month that is not over counts the oldest units as well", () => {
  const units = new Map([["2026-01", 2000], ...eachMonthOf({ from: "2026-02", to: "2026-06" }).map((month) => [month, 50] as const)]);
  const claims = [...units].flatMap(([month, of]) => eachMonthOf({ from: month, to: "2026-05" }).map((filed) => ({ month, filed, monthInService: 0, claims: of / 50 })));
  const times = { units, claims, verdicts: null, today: "2026-06-15" };
  const [may, june] = monthsOfFiling(times, ageWeights(times), { from: "2026-05", to: "2026-06" });
  expect(june?.exposure).toBeGreaterThan(0.45 * (may?.exposure ?? 0));
});

describe("what is hardly anything", () => {
  it("a month without shipments has no rate and is not judged", () => {
    const chart = controlChart([...aHistory([5, 5, 5]), { month: "2023-04", claims: 0, exposure: 0, share: 1, relativeVariance: 0 }, ...aHistory([5], { from: "2023-05" })]);
    expect(chart.months[3]).toMatchObject({ kind: "empty", rate: null, limits: null, outside: null });
  });

  it("no month at all, months ahead and no claim make a chart without a claim", () => {
    expect(controlChart([])).toMatchObject({ months: [], changes: [], judged: { months: 0 } });
    expect(monthsOfShipping({ units: new Map([["2026-01", 9]]), claims: [], verdicts: null, today: "2026-11-25" }, null, { from: "2027-01", to: "2027-06" })).toEqual([]);
    expect(filingDelay([], "2026-11-25")).toBeNull();
    expect(ageWeights({ units: new Map(), claims: [], today: "2026-11-25" })).toEqual([]);
  });

  it("a month far out is framed, one a little out is not", () => {
    const { months, changes } = controlChart(aHistory([2, 3, 2, 1, 2, 3, 2, 12, 2, 1, 3, 2]));
    expect(months.filter(({ outside }) => outside === "above").map(({ month }) => month)).toEqual(["2023-08"]);
    expect(changes).toEqual([]);
  });

  it("whatever the months, every number is finite, every interval holds its estimate and every level its limits", () => {
    const month = fc.record({ claims: fc.integer({ min: 0, max: 3000 }), exposure: fc.oneof(fc.constant(0), fc.double({ min: 1e-3, max: 1e6, noNaN: true })), share: fc.double({ min: 0, max: 1, noNaN: true }), relativeVariance: fc.double({ min: 0, max: 2, noNaN: true }) });
    fc.assert(
      fc.property(fc.array(month, { maxLength: 40 }), (history) => {
        const chart = controlChart(history.map((of, index) => ({ ...of, month: monthsLater("2023-01", index) })));
        expect(numbersIn(chart).every(Number.isFinite)).toBe(true);
        for (const { rate, limits, exposure } of chart.months) {
          if (exposure === 0) expect(rate).toBeNull();
          if (rate) expect(rate.lower <= rate.estimate && rate.estimate <= rate.upper).toBe(true);
          if (limits) expect(limits.lower <= limits.center && limits.center <= limits.upper).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
  });
});
