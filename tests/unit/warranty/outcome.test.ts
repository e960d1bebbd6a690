import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { addDay, addMonths, dayAt } from "@/lib/domain/warranty/calendar-day";
import { lossGroundsShown } from "@/lib/domain/warranty/loss-grounds-shown";
import { type WarrantyFacts, warrantyOutcome } from "@/lib/domain/warranty/outcome";
import { LOSS_GROUNDS_KNOWN, type TermsDocument, termsInForceOn, type WarrantyVersion } from "@/lib/domain/warranty/terms";

const DOCUMENT: TermsDocument = {
  period: { from: "shipment", months: 24, distanceKm: 60_000, hours: null },
  fitter: "anyone",
  lostBy: ["starved_of_oil", "unit_opened"],
  kits: [{ kit: "KH-410", months: 12, distanceKm: null, hours: null, fitter: "workshop" }],
  countries: [{ country: "DE", note: "Ask the adviser first." }],
};
const terms = (changes: Partial<TermsDocument> = {}, period: Partial<TermsDocument["period"]> = {}): WarrantyVersion[] => [{ number: 1, validFrom: "2020-01-01", document: { ...DOCUMENT, ...changes, period: { ...DOCUMENT.period, ...period } } }];
const FACTS: WarrantyFacts = { filedOn: "2026-02-28", shippedOn: "2024-02-29", fittedOn: "2024-03-10", distanceKm: 12_000, hoursRun: null, fittedBy: "owner", kit: "KH-110", country: "SE", lossFound: [], lossLikely: [] };
const of = (facts: Partial<WarrantyFacts>, versions = terms()) => warrantyOutcome(versions, { ...FACTS, ...facts });
const groundOf = (outcome: ReturnType<typeof of>, name: string) => outcome.each.find((term) => term.name.startsWith(name));

const days = fc.date({ min: new Date("1996-01-01T00:00:00Z"), max: new Date("2100-12-31T00:00:00Z"), noInvalidDate: true }).map((date) => date.toISOString().slice(0, 10));

describe("months later", () => {
  test.each([
    ["2024-01-31", 1, "2024-02-29"],
    ["2023-01-31", 1, "2023-02-28"],
    ["2024-02-29", 12, "2025-02-28"],
    ["2024-02-29", 48, "2028-02-29"],
    ["2026-10-31", 6, "2027-04-30"],
    ["2026-12-15", 1, "2027-01-15"],
    ["2100-01-30", 1, "2100-02-28"],
  ])("of %s by %i is %s", (day, months, expected) => {
    expect(addMonths(day, months)).toBe(expected);
  });

  test("fall in the month so many later, on the same day or, where there is none, the last of it", () => {
    fc.assert(
      fc.property(days, fc.integer({ min: 0, max: 240 }), (day, months) => {
        const later = addMonths(day, months);
        const index = (of: string) => Number(of.slice(0, 4)) * 12 + Number(of.slice(5, 7));
        expect(index(later) - index(day)).toBe(months);
        const isSameDay = later.slice(8) === day.slice(8);
        const isLastOfMonth = addDay(later).slice(8) === "01";
        expect(isSameDay || (isLastOfMonth && later.slice(8) < day.slice(8))).toBe(true);
      }),
    );
  });

  test("never turn earlier into later", () => {
    fc.assert(
      fc.property(days, days, fc.integer({ min: 0, max: 240 }), (a, b, months) => {
        const [earlier = "", later = ""] = [a, b].sort();
        expect(addMonths(earlier, months) <= addMonths(later, months)).toBe(true);
      }),
    );
  });

  test("a day is the seller's, not London's", () => {
    expect(dayAt(new Date("2026-03-01T23:30:00Z"), "Europe/Berlin")).toBe("2026-03-02");
  });
});

describe("the warranty outcome", () => {
  test("counts the last day in, and the next one out", () => {
    expect(of({}).standing).toBe("inside");
    expect(of({ filedOn: "2026-03-01" })).toMatchObject({ standing: "outside", terms: 1 });
    expect(groundOf(of({ filedOn: "2026-03-01" }), "24 months")).toMatchObject({ standing: "outside", ground: "shipped 29 February 2024, so until 28 February 2026; filed 1 March 2026" });
  });

  test("ends by distance or by months, whichever comes first", () => {
    expect(of({ distanceKm: 60_000 }).standing).toBe("inside");
    expect(of({ distanceKm: 60_001 }).standing).toBe("outside");
    expect(groundOf(of({ hoursRun: 1_501 }, terms({}, { hours: 1_500 })), "Hours")).toMatchObject({ standing: "outside", ground: "1,501 h since it was fitted, as told" });
  });

  test("names the fact that is missing", () => {
    expect(groundOf(of({ distanceKm: null }), "Distance")).toMatchObject({ standing: "cannot_tell", ground: "how much it has run since it was fitted is not known" });
    expect(of({ distanceKm: null }).standing).toBe("cannot_tell");
    expect(of({ shippedOn: null })).toMatchObject({ standing: "cannot_tell", terms: null });
    expect(groundOf(of({ shippedOn: null }), "Terms")?.ground).toContain("the day it was shipped is not known");
    expect(of({ kit: "KH-410", filedOn: "2024-12-01", fittedBy: null }).standing).toBe("cannot_tell");
  });

  test("from fitting holds what is early enough even from shipment, and else asks for the day", () => {
    const fromFitting = terms({}, { from: "fitting" });
    expect(of({ fittedOn: null }, fromFitting).standing).toBe("inside");
    expect(groundOf(of({ fittedOn: null, filedOn: "2026-03-05" }, fromFitting), "24 months")).toMatchObject({ standing: "cannot_tell", ground: "the day it was fitted is not known" });
    expect(of({ filedOn: "2026-03-10" }, fromFitting).standing).toBe("inside");
  });

  test("is that of the terms in force when the unit shipped", () => {
    const versions: WarrantyVersion[] = [...terms({}, { months: 12 }), { number: 2, validFrom: "2024-03-01", document: DOCUMENT }];
    expect(of({}, versions)).toMatchObject({ terms: 1, standing: "outside" });
    expect(of({ shippedOn: "2024-03-01" }, versions)).toMatchObject({ terms: 2, standing: "inside" });
    expect(of({ shippedOn: "2019-12-31" }, versions)).toMatchObject({ terms: null, standing: "cannot_tell" });
    expect(termsInForceOn([...versions].reverse(), "2026-01-01")?.number).toBe(2);
  });

  test("of a kit with terms of its own is by those", () => {
    const own = of({ kit: "KH-410", filedOn: "2025-02-28" });
    expect(own.each.map(({ standing }) => standing)).toEqual(["inside", "inside", "outside"]);
    expect(of({ kit: "KH-410", filedOn: "2025-03-01", fittedBy: "workshop" }).standing).toBe("outside");
    expect(groundOf(of({}, terms({ fitter: "workshop_with_proof" })), "Fitted by a workshop")?.standing).toBe("outside");
    expect(groundOf(of({ fittedBy: "workshop" }, terms({ fitter: "workshop_with_proof" })), "Fitted by a workshop")?.standing).toBe("cannot_tell");
  });

  test("is lost only by what somebody found; what is only likely leaves it open", () => {
    expect(of({ lossFound: ["starved_of_oil"] }).standing).toBe("outside");
    expect(of({ lossLikely: ["starved_of_oil"] }).standing).toBe("cannot_tell");
    expect(of({ lossFound: ["boost_raised"] }).standing).toBe("inside");
    expect(lossGroundsShown(["C14"], null)).toEqual({ lossFound: ["starved_of_oil"], lossLikely: [] });
  });

  test("brings the note of the customer's country", () => {
    expect([of({}).countryNote, of({ country: "DE" }).countryNote]).toEqual([null, "Ask the adviser first."]);
  });

  test("only ever gets worse as time and distance go on, and is never inside with a term that is not", () => {
    const order = ["inside", "cannot_tell", "outside"];
    const facts = fc.record({ filedOn: days, shippedOn: fc.option(days), fittedOn: fc.option(days), distanceKm: fc.option(fc.integer({ min: 0, max: 200_000 })), fittedBy: fc.option(fc.constantFrom("owner" as const, "workshop" as const)), kit: fc.constantFrom("KH-410", "KH-110") });
    fc.assert(
      fc.property(facts, fc.integer({ min: 1, max: 5_000 }), (some, more) => {
        const before = of(some);
        const later = of({ ...some, filedOn: new Date(Date.parse(some.filedOn) + more * 86_400_000).toISOString().slice(0, 10), distanceKm: some.distanceKm === null ? null : some.distanceKm + more });
        expect(order.indexOf(later.standing)).toBeGreaterThanOrEqual(order.indexOf(before.standing));
        if (before.standing === "inside") expect(before.each.every(({ standing }) => standing === "inside")).toBe(true);
        if (before.standing !== "outside") expect(before.each.every(({ standing }) => standing !== "outside")).toBe(true);
      }),
    );
  });
});

test("every ground of loss is tied to causes that the shipped edition knows", () => {
  const known = new Set(edition1.causes.map(({ code }) => code));
  for (const { causes } of Object.values(LOSS_GROUNDS_KNOWN)) for (const cause of causes) expect(known.has(cause)).toBe(true);
});
