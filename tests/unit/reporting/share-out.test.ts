import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shareOutUnknown } from "@/lib/domain/reporting/share-out";
import { cohortsOf, type Shipped } from "@/tests/builders/cohorts";

const shipped = (vehicleId: string | null, count: number, month = "2026-01", kitRevisionId = "A"): Shipped => ({ kitRevisionId, vehicleId, month, shipped: count });

/** Line by line, month by month. */
const share = (...shipments: Shipped[]) =>
  shareOutUnknown(cohortsOf(shipments)).flatMap(({ kitRevisionId, vehicleId, months }) => months.map(({ claims: _claims, ...month }) => ({ kitRevisionId, vehicleId, ...month })));

describe("sharing out shipments whose vehicle is not known", () => {
  it("follows the known ones of the same kit revision", () => {
    const shared = share(shipped("x", 30), shipped("y", 10), shipped(null, 20), shipped("y", 1000, "2026-01", "B"));
    expect(shared.filter(({ sharedOut }) => sharedOut > 0)).toEqual([
      { kitRevisionId: "A", vehicleId: "x", month: "2026-01", known: 30, sharedOut: 15 },
      { kitRevisionId: "A", vehicleId: "y", month: "2026-01", known: 10, sharedOut: 5 },
    ]);
  });

  it("goes by the whole period, so that a month without a known vehicle is shared out too", () => {
    const shared = share(shipped("x", 3), shipped("y", 1), shipped(null, 8, "2026-02"));
    expect(shared.filter(({ month, sharedOut }) => month === "2026-02" && sharedOut > 0).map(({ vehicleId, sharedOut }) => [vehicleId, sharedOut])).toEqual([
      ["x", 6],
      ["y", 2],
    ]);
  });

  it("leaves a revision without any known vehicle where it is", () => {
    expect(share(shipped(null, 20))).toEqual([{ kitRevisionId: "A", vehicleId: null, month: "2026-01", known: 20, sharedOut: 0 }]);
  });

  it("loses no shipment and makes none", () => {
    const counts = fc.array(
      fc.record({
        kitRevisionId: fc.constantFrom("A", "B"),
        vehicleId: fc.constantFrom("x", "y", null),
        month: fc.constantFrom("2026-01", "2026-02"),
        shipped: fc.integer({ min: 1, max: 9999 }),
      }),
    );
    fc.assert(
      fc.property(counts, (shipments) => {
        const before = shipments.reduce((sum, { shipped: count }) => sum + count, 0);
        const after = share(...shipments).reduce((sum, { known, sharedOut }) => sum + known + sharedOut, 0);
        expect(after).toBeCloseTo(before, 6);
      }),
    );
  });
});
