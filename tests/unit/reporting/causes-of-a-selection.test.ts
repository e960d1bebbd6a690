import { describe, expect, it } from "vitest";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { causesOfASelection } from "@/lib/domain/reporting/causes-of-a-selection";
import { serviceClock } from "@/lib/domain/reporting/months-in-service";
import { type Claimed, cohortsOf } from "@/tests/builders/cohorts";

const catalogue: ReportCatalogue = {
  kits: [
    {
      id: "k1",
      code: "K-1",
      name: "First kit",
      vehicleIds: ["x", "y"],
      revisions: [
        { id: "1A", revision: "A", introducedOn: "2025-01-01", change: "First issue." },
        { id: "1B", revision: "B", introducedOn: "2026-01-01", change: "Longer drain." },
      ],
    },
    { id: "k2", code: "K-2", name: "Second kit", vehicleIds: ["x"], revisions: [{ id: "2A", revision: "A", introducedOn: "2025-01-01", change: "" }] },
  ],
  vehicles: [
    { id: "x", make: "Make", model: "X", engine: "2.0" },
    { id: "y", make: "Make", model: "Y", engine: "3.0" },
  ],
};
const month = "2026-01";
const shipments = [
  { kitRevisionId: "1A", vehicleId: "x", month, shipped: 1000 },
  { kitRevisionId: "1B", vehicleId: "x", month, shipped: 300 },
  { kitRevisionId: "1B", vehicleId: "y", month, shipped: 100 },
  { kitRevisionId: "1B", vehicleId: null, month, shipped: 100 },
  { kitRevisionId: "2A", vehicleId: "x", month, shipped: 700 },
];
const count = (kitRevisionId: string, vehicleId: string | null, cause: string | null, claims: number, outcome: Claimed["outcome"] = "fit"): Claimed => ({
  kitRevisionId,
  vehicleId,
  month,
  cause,
  claims,
  outcome,
});
const claims = [
  count("1A", "x", "C01", 4),
  count("1A", "x", "C18", 1, "normal"),
  count("1A", "x", null, 2, "undecided"),
  count("1B", "x", "C01", 6, "kit"),
  count("1B", "x", null, 1, "ended"),
  count("1B", "y", "C15", 3, "unit"),
  count("2A", "x", "C11", 5),
];
const contributing = [
  { kitRevisionId: "1A", vehicleId: "x", role: "contributing" as const, cause: "C07", claims: 2 },
  { kitRevisionId: "2A", vehicleId: "x", role: "contributing" as const, cause: "C01", claims: 9 },
];
const probable = [{ kitRevisionId: "1A", vehicleId: "x", role: "probable" as const, cause: "C15", claims: 1.25 }];
const primary = claims.flatMap(({ kitRevisionId, vehicleId, cause, claims: times }) => (cause === null ? [] : [{ kitRevisionId, vehicleId, role: "primary" as const, cause, claims: times }]));
const costs = [{ cause: "C01", currency: "EUR", amountMinor: 120_00 }];
const of = (selection: Parameters<typeof causesOfASelection>[0]["selection"]) => causesOfASelection({
    catalogue,
    cohorts: cohortsOf(shipments, claims),
    causes: [...primary, ...contributing, ...probable],
    costs,
    selection,
    clock: serviceClock("2026-02-25"),
  });

describe("the causes of a kit on a vehicle", () => {
  const report = of({ kit: "K-1", vehicle: "x" });

  it("count the primary cause and show apart how often another contributed", () => {
    expect(report.causes.map(({ cause, primary, contributing: beside }) => [cause, primary, beside])).toEqual([
      ["C01", 10, 0],
      ["C18", 1, 0],
      ["C07", 0, 2],
      ["C15", 0, 0],
    ]);
  });

  it("show what is probable of the undecided apart, in no share and no rate", () => {
    expect(report.causes[3]).toMatchObject({ cause: "C15", primary: 0, probable: 1.25, share: { estimate: 0 }, rate: { estimate: 0 } });
  });

  it("add up to all, the most frequent first", () => {
    expect(report.causes.map(({ cumulativeShare }) => cumulativeShare)).toEqual([10 / 11, 1, 1, 1]);
    expect(report.causes[0]?.costs).toEqual([{ currency: "EUR", amountMinor: 12_000 }]);
  });

  it("are told by month of shipping, per shipped and per month in service", () => {
    expect(report.months.map(({ month: of, figures: { shipped, claims: count } }) => [of, shipped, count])).toEqual([["2026-01", 1375, 14]]);
    // 40.5 days since the middle of January, less three weeks on the way: 0.64 months each.
    expect(report.figures.unitMonths).toBeCloseTo((1375 * 19.5) / (365.2425 / 12), 6);
  });

  it("have shares of the decided and rates of the shipped", () => {
    expect(report.figures).toMatchObject({ shipped: 1375, sharedOut: 75, claims: 14, decided: 11, outcomes: { undecided: 2, ended: 1 } });
    expect(report.causes[0]?.share?.estimate).toBeCloseTo(10 / 11, 12);
    expect(report.causes[0]?.rate?.estimate).toBeCloseTo(10 / 1.375, 9);
  });

  it("are told by revision, with the cause that leads in each", () => {
    expect(report.revisions.map(({ revision, figures, leading }) => [revision.revision, figures.claims, leading])).toEqual([
      ["A", 7, { cause: "C01", claims: 4 }],
      ["B", 7, { cause: "C01", claims: 6 }],
    ]);
  });
});

it("narrows to a revision, widens to all kits of a vehicle, and says nothing of what was never shipped", () => {
  expect(of({ kit: "K-1", vehicle: "x", revision: "B" }).figures).toMatchObject({ shipped: 375, claims: 7 });
  expect(of({ vehicle: "x" }).figures).toMatchObject({ claims: 19 });
  expect(of({ kit: "K-2", vehicle: "y" })).toMatchObject({ figures: { shipped: 0, claims: 0, rate: null }, causes: [], revisions: [] });
});
