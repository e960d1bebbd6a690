import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shareOut } from "@/lib/domain/claims/bearing-shares";
import { BOOKING_KINDS, type Booking, type BookingKind, COST_KINDS, movesOf, NOTHING_PROMISED, promisedThings, roundOf, standingBookings, totalsOf } from "@/lib/domain/claims/bookings";
import { formatMoney, fromMinor, parseMoney, typedMoney } from "@/lib/domain/claims/money";

const NOBODY = { sellerMinor: 0, customerMinor: 0, supplierMinor: 0 };
const amounts = fc.integer({ min: 1, max: 2_000_000_000 });
const percents = fc.integer({ min: 0, max: 100 }).chain((sellerPercent) => fc.record({ sellerPercent: fc.constant(sellerPercent), supplierPercent: fc.integer({ min: 0, max: 100 - sellerPercent }) }));
let count = 0;
const booking = (kind: BookingKind, amountMinor: number, { reversesId = null, currency = "EUR", shares = { ...NOBODY, sellerMinor: amountMinor } }: { reversesId?: string | null; currency?: string; shares?: typeof NOBODY } = {}): Booking => {
  count += 1;
  return { id: String(count), kind, amountMinor, ...movesOf(kind, amountMinor, shares), currency, reversesId };
};
const reversalOf = (one: Booking): Booking => ({ ...one, id: `${one.id}-back`, amountMinor: -one.amountMinor, sellerMinor: -one.sellerMinor, customerMinor: -one.customerMinor, supplierMinor: -one.supplierMinor, heldMinor: -one.heldMinor, reversesId: one.id });

describe("the shares of an amount", () => {
  test("add up to it, are whole, and lie within one of the exact ones", () => {
    fc.assert(
      fc.property(amounts, percents, (amount, shares) => {
        const { sellerMinor, customerMinor, supplierMinor } = shareOut(amount, shares);
        expect(sellerMinor + customerMinor + supplierMinor).toBe(amount);
        for (const [share, percent] of [[sellerMinor, shares.sellerPercent], [supplierMinor, shares.supplierPercent], [customerMinor, 100 - shares.sellerPercent - shares.supplierPercent]] as const) {
          expect(Number.isInteger(share)).toBe(true);
          expect(share).toBeGreaterThanOrEqual(0);
          expect(Math.abs(share - (amount * percent) / 100)).toBeLessThan(1);
        }
      }),
    );
  });

  test("of 101 at 50 and 25 per cent are 51, 25 and 25", () => {
    expect(shareOut(101, { sellerPercent: 50, supplierPercent: 25 })).toEqual({ sellerMinor: 51, customerMinor: 25, supplierMinor: 25 });
  });

  test("are refused where they make more than the whole, or are no whole numbers", () => {
    expect(() => shareOut(100, { sellerPercent: 80, supplierPercent: 30 })).toThrow("shareOut needs");
    expect(() => shareOut(100.5, { sellerPercent: 80, supplierPercent: 0 })).toThrow("shareOut needs");
  });
});

describe("the ledger", () => {
  test("adds up: whatever is booked and reversed, the shares make the whole, and all reversed is nothing", () => {
    const bookings = fc.array(fc.record({ kind: fc.constantFrom(...COST_KINDS), amount: amounts, shares: percents, currency: fc.constantFrom("EUR", "GBP", "JPY") }), { maxLength: 12 });
    fc.assert(
      fc.property(bookings, (made) => {
        const booked = made.map(({ kind, amount, shares, currency }) => booking(kind, amount, { shares: shareOut(amount, shares), currency }));
        for (const { currency, allMinor, sellerMinor, customerMinor, supplierMinor } of totalsOf(booked)) {
          expect(allMinor).toBe(sellerMinor + customerMinor + supplierMinor);
          expect(allMinor).toBe(booked.reduce((sum, one) => sum + (one.currency === currency ? one.amountMinor : 0), 0));
        }
        for (const total of totalsOf([...booked, ...booked.map(reversalOf)])) expect(total).toEqual({ currency: total.currency, allMinor: 0, sellerMinor: 0, customerMinor: 0, supplierMinor: 0, heldMinor: 0 });
      }),
    );
  });

  test("holds a deposit at nobody's cost; given back it is gone, kept it is the seller's and the customer's loss", () => {
    const held = booking("core_held", 15_000);
    expect(totalsOf([held])).toEqual([{ currency: "EUR", allMinor: 0, sellerMinor: 0, customerMinor: 0, supplierMinor: 0, heldMinor: 15_000 }]);
    expect(totalsOf([held, booking("core_released", 15_000)])).toMatchObject([{ allMinor: 0, sellerMinor: 0, heldMinor: 0 }]);
    expect(totalsOf([held, booking("core_kept", 15_000)])).toMatchObject([{ allMinor: 0, sellerMinor: -15_000, customerMinor: 15_000, heldMinor: 0 }]);
  });

  test("counts rounds by reversals of the kind, and lets only what was not reversed stand", () => {
    const [refund, part] = [booking("refund", 100), booking("part", 50)];
    const booked = [refund, part, reversalOf(refund)];
    expect(standingBookings(booked)).toEqual([part]);
    expect(BOOKING_KINDS.filter((kind) => roundOf(booked, kind) === 1)).toEqual(["refund"]);
  });
});

describe("what a verdict promised", () => {
  const share = { ...NOTHING_PROMISED, promisedMinor: 40_000, promisedCurrency: "EUR", sellerPercent: 70 };

  test("is kept by no less than the sum that was named, in its currency", () => {
    const open = { kind: "goodwill", isKept: false };
    expect(promisedThings("goodwill", share, [])).toMatchObject([{ ...open, bookedMinor: 0, promisedMinor: 40_000 }]);
    expect(promisedThings("goodwill", share, [booking("goodwill", 39_999)])).toMatchObject([{ ...open, bookedMinor: 39_999 }]);
    expect(promisedThings("goodwill", share, [booking("goodwill", 50_000, { currency: "GBP" })])).toMatchObject([open]);
    expect(promisedThings("goodwill", share, [booking("goodwill", 40_000)])).toMatchObject([{ kind: "goodwill", isKept: true }]);
  });

  test("is open again once its booking is reversed", () => {
    const part = booking("part", 5_500);
    expect(promisedThings("part_sent", NOTHING_PROMISED, [part])).toMatchObject([{ isKept: true }]);
    expect(promisedThings("part_sent", NOTHING_PROMISED, [part, reversalOf(part)])).toMatchObject([{ isKept: false, bookedMinor: 0 }]);
  });

  test("of a deposit is kept once it is given back or kept; carriage once any is booked", () => {
    const promise = { ...NOTHING_PROMISED, promisedCurrency: "EUR", coreDepositMinor: 15_000, paysCarriage: true };
    const kept = (...booked: Booking[]) => promisedThings("replacement", promise, booked).map(({ kind, isKept }) => `${kind} ${isKept}`);
    expect(kept()).toEqual(["replacement false", "carriage_back false", "core_held false"]);
    expect(kept(booking("replacement", 56_000), booking("carriage_back", 1_800), booking("core_held", 15_000))).toEqual(["replacement true", "carriage_back true", "core_held false"]);
    expect(kept(booking("core_held", 15_000), booking("core_kept", 15_000))).toContain("core_held true");
  });

  test.each(["advice", "declined"] as const)("by %s alone is nothing", (remedy) => {
    expect(promisedThings(remedy, NOTHING_PROMISED, [])).toEqual([]);
  });
});

describe("an amount", () => {
  test("is read back as it is written for a form, in every kind of currency", () => {
    fc.assert(
      fc.property(amounts, fc.constantFrom("EUR", "JPY", "KWD"), (minor, currency) => {
        expect(parseMoney(typedMoney(minor, currency), currency)).toBe(minor);
      }),
    );
    expect([typedMoney(5, "EUR"), typedMoney(12_950, "EUR"), typedMoney(700, "JPY")]).toEqual(["0.05", "129.50", "700"]);
  });

  test("is shown in the reader's language, and reckoned with in units", () => {
    expect(formatMoney(12_950, "EUR", "de").replace(/\s/u, " ")).toBe("129,50 €");
    expect(fromMinor(12_950, "EUR")).toBe(129.5);
  });
});
