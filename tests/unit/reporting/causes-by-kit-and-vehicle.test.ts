import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { causesByKitAndVehicle, comparedCells } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import { OUTCOMES } from "@/lib/domain/reporting/outcomes";
import { serviceClock } from "@/lib/domain/reporting/months-in-service";
import { type Claimed, cohortsOf, type Shipped } from "@/tests/builders/cohorts";

const revision = (id: string, name: string) => ({ id, revision: name, introducedOn: "2025-01-01", change: "" });
const catalogue: ReportCatalogue = {
  kits: [
    { id: "k1", code: "K-1", name: "First kit", revisions: [revision("1A", "A"), revision("1B", "B")], vehicleIds: ["x", "y"] },
    { id: "k2", code: "K-2", name: "Second kit", revisions: [revision("2A", "A")], vehicleIds: ["x"] },
    { id: "k3", code: "K-3", name: "Never sold", revisions: [revision("3A", "A")], vehicleIds: ["y"] },
  ],
  vehicles: [
    { id: "x", make: "Make", model: "X", engine: "2.0" },
    { id: "y", make: "Make", model: "Y", engine: "3.0" },
    { id: "z", make: "Make", model: "Z", engine: "4.0" },
  ],
};

const shipped = (kitRevisionId: string, vehicleId: string | null, count: number, month = "2026-01"): Shipped => ({ kitRevisionId, vehicleId, month, shipped: count });
const claims = (kitRevisionId: string, vehicleId: string | null, count: number, more: Partial<Claimed> = {}): Claimed => ({
  kitRevisionId,
  vehicleId,
  month: "2026-01",
  outcome: "fit",
  cause: "C01",
  claims: count,
  ...more,
});

const clock = serviceClock("2026-11-25");
const SHIPMENTS = [shipped("1A", "x", 1000), shipped("1B", "x", 500), shipped("1B", "y", 500), shipped("1B", null, 500), shipped("2A", "x", 2000)];
const CLAIMS = [claims("1A", "x", 10), claims("1B", "x", 5), claims("1B", "y", 30), claims("2A", "x", 20), claims("2A", null, 2, { outcome: "undecided", cause: null })];

describe("causes by kit and vehicle", () => {
  const table = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf(SHIPMENTS, CLAIMS), clock }, { by: "kit" });

  it("has a row for each kit of which something was shipped and a column for each vehicle it is sold for", () => {
    expect(table.rows.map(({ kit }) => kit.code)).toEqual(["K-1", "K-2"]);
    expect(table.rowsLeftOut).toBe(1);
    expect(table.columns.map((vehicle) => vehicle?.id ?? null)).toEqual(["x", "y", null]);
    expect(table.rows[1]?.cells[1]).toMatchObject({ isSold: false, figures: { shipped: 0, rate: null } });
  });

  it("divides claims by what was shipped with its share of the unknown", () => {
    expect(table.rows[0]?.cells[1]?.figures).toMatchObject({ shipped: 750, sharedOut: 250, claims: 30, decided: 30, rate: { estimate: 40 } });
    expect(table.rows[0]?.cells[0]?.figures).toMatchObject({ shipped: 1750, claims: 15 });
  });

  it("shows claims whose vehicle is not known apart and without a rate", () => {
    expect(table.rows[1]?.cells[2]).toMatchObject({ vehicle: null, comparison: null, figures: { claims: 2, decided: 0, rate: null } });
  });

  it("adds up", () => {
    expect(table.total.shipped).toBeCloseTo(4500, 6);
    expect(table.total.claims).toBe(67);
    expect(table.rows.reduce((sum, { total }) => sum + total.claims, 0)).toBe(67);
  });

  it("finds the cell that stands out from all the others", () => {
    const [first, second] = comparedCells(table);
    expect([first?.row.kit.code, first?.vehicle?.id]).toEqual(["K-1", "y"]);
    // Elsewhere 35 claims came of 3,750 shipped; 750 shipped would give 7.
    expect(first?.comparison.expected).toBeCloseTo(7, 9);
    expect(first?.comparison.ratio.estimate).toBeCloseTo(30 / 7, 9);
    expect(looksHigh(first?.comparison ?? null)).toBe(true);
    expect(looksHigh(second?.comparison ?? null)).toBe(false);
  });

  it("tells revisions apart where a row is a revision", () => {
    const byRevision = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf(SHIPMENTS, CLAIMS), clock }, { by: "revision" });
    expect(byRevision.rows.map(({ kit, revision: of }) => `${kit.code} ${of?.revision}`)).toEqual(["K-1 A", "K-1 B", "K-2 A"]);
    expect(byRevision.rows[1]?.cells[0]?.figures).toMatchObject({ shipped: 750, claims: 5 });
  });

  it("shows the kit or vehicle asked for, and still compares it with all the others", () => {
    const one = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf(SHIPMENTS, CLAIMS), clock }, { by: "kit", kit: "K-1", vehicle: "y" });
    expect(one.rows).toHaveLength(1);
    expect(one.rows[0]?.cells).toHaveLength(1);
    expect(one.total).toMatchObject({ shipped: 750, claims: 30 });
    expect(comparedCells(one)[0]?.comparison.expected).toBeCloseTo(7, 9);
  });

  it("shows a kit never sold as a row of nothing", () => {
    const never = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf(SHIPMENTS, CLAIMS), clock }, { by: "kit", kit: "K-3" });
    expect(never.rows[0]?.cells).toEqual([expect.objectContaining({ isSold: true, comparison: null })]);
    expect(never.total).toMatchObject({ shipped: 0, claims: 0, rate: null });
  });
});

describe("what a cell is compared with", () => {
  it("is the same months elsewhere, so that young shipments are not flattered", () => {
    const old = { month: "2026-01" };
    const young = { month: "2026-06" };
    const table = causesByKitAndVehicle(
      {
        catalogue,
        cohorts: cohortsOf(
          [shipped("2A", "x", 1000, "2026-01"), shipped("2A", "x", 1000, "2026-06"), shipped("1A", "x", 1000, "2026-06")],
          [claims("2A", "x", 40, old), claims("2A", "x", 4, young), claims("1A", "x", 4, young)],
        ),
        clock,
      },
      { by: "kit" },
    );
    expect(comparedCells(table).find(({ row }) => row.kit.code === "K-1")?.comparison).toMatchObject({ expected: 4, ratio: { estimate: 1 } });
  });

  it("is nothing where nothing else was shipped or claimed", () => {
    const alone = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf([shipped("1A", "x", 100)], [claims("1A", "x", 9)]), clock }, { by: "kit" });
    expect(alone.rows[0]?.cells[0]?.comparison).toBeNull();
    const unclaimed = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf([shipped("1A", "x", 100), shipped("2A", "x", 100)], [claims("1A", "x", 9)]), clock }, { by: "kit" });
    expect(comparedCells(unclaimed)).toEqual([]);
  });

  it("leaves out cells with under three claims", () => {
    const few = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf(SHIPMENTS, [claims("1A", "x", 2), claims("2A", "x", 3)]), clock }, { by: "kit" });
    expect(comparedCells(few).map(({ row }) => row.kit.code)).toEqual(["K-2"]);
  });
});

it("gives finite figures, and limits around them, for whatever was shipped and claimed", () => {
  const place = { kitRevisionId: fc.constantFrom("1A", "1B", "2A", "3A"), vehicleId: fc.constantFrom("x", "y", "z", null), month: fc.constantFrom("2026-01", "2026-02") };
  const shipments = fc.array(fc.record({ ...place, shipped: fc.integer({ min: 1, max: 5000 }) }), { maxLength: 12 });
  const counts = fc.array(fc.record({ ...place, outcome: fc.constantFrom(...OUTCOMES), cause: fc.constantFrom("C01", "C15", null), claims: fc.integer({ min: 1, max: 60 }) }), { maxLength: 12 });
  fc.assert(
    fc.property(shipments, counts, fc.constantFrom("kit" as const, "revision" as const), (shippedCounts, claimCounts, by) => {
      const { rows, total } = causesByKitAndVehicle({ catalogue, cohorts: cohortsOf(shippedCounts, claimCounts), clock }, { by });
      for (const { figures, comparison } of rows.flatMap(({ cells }) => cells))
        for (const interval of [figures.rate, figures.serviceRate, comparison?.ratio])
          if (interval) {
            expect(Number.isFinite(interval.upper)).toBe(true);
            expect(interval.lower).toBeLessThanOrEqual(interval.estimate);
            expect(interval.estimate).toBeLessThanOrEqual(interval.upper);
          }
      expect(total.claims).toBe(claimCounts.reduce((sum, { claims: count }) => sum + count, 0));
    }),
  );
});
