import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linesByAge, linesByBatch } from "@/lib/domain/reporting/breakdowns";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { monthsInService, serviceClock } from "@/lib/domain/reporting/months-in-service";
import { cohortsOf } from "@/tests/builders/cohorts";

const catalogue: ReportCatalogue = {
  kits: [{ id: "k", code: "K", name: "Kit", vehicleIds: ["x", "y"], revisions: [{ id: "A", revision: "A", introducedOn: "2025-01-01", change: "" }] }],
  vehicles: [
    { id: "x", make: "Make", model: "X", engine: "2.0" },
    { id: "y", make: "Make", model: "Y", engine: "3.0" },
  ],
};
const month = "2026-01";
const place = {
  catalogue,
  selection: { kit: "K", vehicle: "x" },
  cohorts: cohortsOf([
    { kitRevisionId: "A", vehicleId: "x", month, shipped: 30 },
    { kitRevisionId: "A", vehicleId: "y", month, shipped: 10 },
    { kitRevisionId: "A", vehicleId: null, month, shipped: 20 },
  ]),
};

describe("months in service", () => {
  it("begin three weeks after shipping and are never less than none", () => {
    expect(monthsInService("2026-01", "2026-02-05")).toBe(0);
    expect(monthsInService("2026-01", "2026-07-07")).toBeCloseTo((172.5 - 21) / (365.2425 / 12), 9);
    expect(monthsInService("2099-01", "2026-07-07")).toBe(0);
  });

  it("add up to the whole from month to month of the life", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 28 }), (shipped, day) => {
        const today = `2027-03-${String(day).padStart(2, "0")}`;
        const from = `2026-${String(shipped).padStart(2, "0")}`;
        const parts = Array.from({ length: 20 }, (_, first) => monthsInService(from, today, { first, before: first + 1 }));
        expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(monthsInService(from, today), 9);
      }),
    );
  });
});

describe("claims by month in service", () => {
  it("stand against the units that have reached it, and against none where none has", () => {
    const lines = linesByAge(place, [{ monthInService: 0, claims: 3 }, { monthInService: 9, claims: 1 }], serviceClock("2026-04-01"));
    expect(lines).toHaveLength(10);
    // 30 known and 15 of 20 shared out; 75.5 days since shipping, less three weeks: 1.79 months.
    expect(lines[0]).toMatchObject({ claims: 3, unitMonths: 45, rate: { estimate: 3000 / 45 } });
    expect(lines[1]?.unitMonths).toBeCloseTo(45 * (54.5 / (365.2425 / 12) - 1), 9);
    expect(lines[9]).toMatchObject({ claims: 1, unitMonths: 0, rate: null });
  });
});

describe("claims by batch", () => {
  it("stand against what was shipped of the batch, the unknown shared out as in the whole revision", () => {
    const lines = linesByBatch(
      place,
      [
        { kitRevisionId: "A", vehicleId: "x", batch: "B1", units: 30 },
        { kitRevisionId: "A", vehicleId: "y", batch: "B2", units: 10 },
        { kitRevisionId: "A", vehicleId: null, batch: "B2", units: 20 },
      ],
      [{ batch: "B1", claims: 3 }, { batch: null, claims: 1 }],
    );
    expect(lines).toMatchObject([
      { batch: "B1", shipped: 30, claims: 3, rate: { estimate: 100 } },
      { batch: "B2", shipped: 15, claims: 0, rate: { estimate: 0 } },
      { batch: null, shipped: 0, claims: 1, rate: null },
    ]);
  });
});
