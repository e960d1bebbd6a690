import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { BookingKind } from "@/lib/domain/claims/bookings";
import { benchMinutes, CHARGEBACK_STATES, chargebackTotals, costOfRemedy, lineTotal, mayAct, stateByAnswers } from "@/lib/domain/claims/chargeback";

const minor = fc.integer({ min: 0, max: 5_000_000 });
const line = fc
  .record({ remedyMinor: minor, carriageMinor: minor, benchMinor: minor, share: fc.option(fc.double({ min: 0, max: 1, noNaN: true })) })
  .map(({ share, ...amounts }) => ({ ...amounts, acceptedMinor: share === null ? null : Math.floor(share * lineTotal(amounts)) }));
const lines = fc.array(line, { maxLength: 40 });

describe("the totals of a chargeback", () => {
  test("ask for just what remedies, carriage and bench come to, and fall apart into accepted, refused and open without a rest", () => {
    fc.assert(
      fc.property(lines, (all) => {
        const totals = chargebackTotals(all);
        expect(totals.askedMinor).toBe(totals.remedyMinor + totals.carriageMinor + totals.benchMinor);
        expect(totals.askedMinor).toBe(totals.acceptedMinor + totals.refusedMinor + totals.openMinor);
        expect(totals.askedMinor).toBe(all.reduce((sum, one) => sum + lineTotal(one), 0));
        expect(Math.min(totals.acceptedMinor, totals.refusedMinor, totals.openMinor)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  test("are those of its parts together, however it is split", () => {
    fc.assert(
      fc.property(lines, lines, (some, others) => {
        const [one, other, both] = [chargebackTotals(some), chargebackTotals(others), chargebackTotals([...others, ...some])];
        for (const key of Object.keys(both) as (keyof typeof both)[]) expect(both[key]).toBe(one[key] + other[key]);
      }),
    );
  });
});

describe("the state by the answers", () => {
  test("is sent while one line has none, and else says whether all, a part or nothing was accepted", () => {
    fc.assert(
      fc.property(fc.array(line, { minLength: 1, maxLength: 12 }), (all) => {
        const { acceptedMinor, refusedMinor } = chargebackTotals(all);
        const state = stateByAnswers(all);
        expect(state === "sent").toBe(all.some((one) => one.acceptedMinor === null));
        if (state === "accepted") expect(refusedMinor).toBe(0);
        if (state === "refused") expect([acceptedMinor, refusedMinor > 0]).toEqual([0, true]);
        if (state === "accepted_in_part") expect(Math.min(acceptedMinor, refusedMinor)).toBeGreaterThan(0);
      }),
    );
  });

  test("allows no line to change once it is sent, and nothing at all once it is closed", () => {
    expect(CHARGEBACK_STATES.filter((state) => mayAct(state, "change_lines"))).toEqual(["draft"]);
    for (const act of ["change_lines", "drop", "send", "answer", "close"] as const) expect(mayAct("closed", act)).toBe(false);
    expect(mayAct("sent", "close")).toBe(false);
  });
});

describe("what a verdict has cost", () => {
  const booked = (kind: BookingKind, sellerMinor: number, supplierMinor = 0, currency = "EUR") => ({ kind, currency, sellerMinor, supplierMinor });

  test("is what the customer does not bear, carriage apart, in one currency", () => {
    const all = [booked("replacement", 52_000), booked("carriage_back", 1_850), booked("carriage_out", 900), booked("goodwill", 3_000, 7_000), booked("refund", 99_000, 0, "USD")];
    expect(costOfRemedy(all, "EUR")).toEqual({ remedyMinor: 62_000, carriageMinor: 2_750 });
  });

  test("is nothing once a booking is reversed, and never less than nothing", () => {
    expect(costOfRemedy([booked("refund", 10_000), booked("refund", -10_000)], "EUR")).toEqual({ remedyMinor: 0, carriageMinor: 0 });
    expect(costOfRemedy([booked("core_kept", -8_000)], "EUR")).toEqual({ remedyMinor: 0, carriageMinor: 0 });
  });

  test("counts the bench from beginning to end, and no night that an inspection lay", () => {
    const at = (minutes: number) => new Date(1_750_000_000_000 + minutes * 60_000);
    expect(benchMinutes([{ startedAt: at(0), inspectedAt: at(42) }, { startedAt: at(50), inspectedAt: at(60) }])).toBe(52);
    expect(benchMinutes([{ startedAt: at(0), inspectedAt: at(15 * 60) }])).toBe(240);
    expect(benchMinutes([{ startedAt: at(0), inspectedAt: null }])).toBe(0);
  });
});
