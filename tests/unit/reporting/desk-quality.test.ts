import { describe, expect, test } from "vitest";
import { workingClock } from "@/lib/domain/claims/working-hours";
import { type DeskFacts, deskQuality } from "@/lib/domain/reporting/desk-quality";
import { keptMinutes, summariseWaits, type Wait } from "@/lib/domain/reporting/desk-waits";
import { givesAway, rangeOf, tally } from "@/lib/domain/reporting/supplier-summary";

const at = (text: string) => new Date(text);
const berlin = workingClock({ timeZone: "Europe/Berlin", workingDays: [1, 2, 3, 4, 5], opensAt: "08:00", closesAt: "17:00" }, at("2026-03-01T00:00:00Z"), at("2026-11-01T00:00:00Z"));
const facts = (more: Partial<DeskFacts> = {}): DeskFacts => ({
  answer: null,
  isOverdue: false,
  isDecided: false,
  hasEnded: false,
  wasCleared: false,
  verdict: null,
  scored: null,
  inspection: null,
  returnAuthorised: false,
  wasSuspected: false,
  opinions: null,
  ...more,
});
const NO_WAITS = { working: [], calendar: [] };
const quality = (...claims: DeskFacts[]) => deskQuality(claims.map((known) => ({ facts: known, claims: 1 })), { firstAnswer: NO_WAITS, verdict: NO_WAITS, needlessReturn: 150 });
const FIT = { cause: "C01", attribution: "fit" } as const;
const UNIT = { cause: "C15", attribution: "unit" } as const;
const decided = (judgement: typeof FIT | typeof UNIT, more: Partial<DeskFacts> = {}) => facts({ verdict: { ...judgement, remedy: "advice", way: "confirmed" }, isDecided: true, ...more });

describe("working hours", () => {
  test.each([
    ["2026-03-06T15:00:00Z", "2026-03-09T08:30:00Z", 2.5],
    ["2026-03-07T10:00:00Z", "2026-03-08T10:00:00Z", 0],
    // The clocks go forward on 29 March.
    ["2026-03-27T15:00:00Z", "2026-03-30T07:00:00Z", 2],
    ["2026-03-09T06:00:00Z", "2026-03-09T20:00:00Z", 9],
  ])("from %s to %s are %f", (from, to, expected) => {
    expect(berlin(at(from), at(to))).toBeCloseTo(expected, 9);
  });
});

describe("waits", () => {
  const wait = (hours: number, isOver = true, claims = 1): Wait => ({ minutes: hours * 60, isOver, claims });
  const summary = (...waits: Wait[]) => summariseWaits({ working: waits, calendar: waits });
  test("are kept to the minute, and from 1,000 minutes on to three figures", () => {
    expect([0, -1, 0.004, 1.51, 16.65, 16.75, 99.99].map(keptMinutes)).toEqual([0, 0, 0, 91, 999, 1010, 6000]);
  });
  test("count who still waits as having waited at least so long", () => {
    expect(summary(wait(1), wait(2), wait(3)).calendar.median).toBe(2);
    expect(summary(wait(1), wait(2), wait(3), wait(50, false, 2))).toMatchObject({ claims: 5, over: 3, censored: 2, working: { median: 3 } });
  });
  test("say nothing of a median that fewer than half have reached", () => {
    expect(summary(wait(1), wait(50, false, 2)).calendar).toMatchObject({ median: null, ninetieth: null });
    expect(summary()).toMatchObject({ claims: 0, working: { median: null, ninetieth: null } });
  });
});

describe("the quality of the desk", () => {
  test("is silent where there is nothing to tell", () => {
    const none = quality();
    expect(none).toMatchObject({ inTime: null, noFaultFound: null, worthOfReturnsAvoided: 0, withScoring: { pairs: 0, causes: null }, betweenStaff: { pairs: 0 } });
  });

  test("counts an unanswered claim as late once its promise is past, and not before", () => {
    const { counts, inTime } = quality(facts({ isOverdue: true }), facts(), facts({ hasEnded: true }), facts({ answer: "in-time" }), facts({ answer: "late" }));
    expect([counts["on-time"], counts.late, counts.unanswered, inTime?.estimate]).toEqual([1, 2, 2, 1 / 3]);
  });

  test("finds no fault only where neither bench nor verdict names one", () => {
    const { counts, noFaultFound } = quality(decided(FIT, { inspection: { showsFault: false } }), decided(FIT, { inspection: { showsFault: true } }), decided(UNIT, { inspection: { showsFault: false } }), facts({ inspection: { showsFault: false } }));
    expect([counts["no-fault-found"], counts.inspected]).toEqual([1, 3]);
    expect(noFaultFound?.estimate).toBeCloseTo(1 / 3, 12);
  });

  test("avoids a return only of a suspected unit that was never asked for", () => {
    const suspected = { wasSuspected: true };
    const { counts, worthOfReturnsAvoided } = quality(decided(FIT, suspected), facts({ ...suspected, wasCleared: true }), decided(FIT), decided(FIT, { ...suspected, returnAuthorised: true }), decided(UNIT, suspected), facts(suspected));
    expect([counts["returns-avoided"], counts.suspected, worthOfReturnsAvoided]).toEqual([2, 5, 300]);
  });

  test("compares verdict and scoring, and leaves kappa undefined where both always say one thing", () => {
    const same = quality(decided(FIT, { scored: FIT }), decided(FIT, { scored: FIT }));
    expect(same.withScoring.causes).toMatchObject({ observedAgreement: 1, kappa: null });
    const parted = quality(decided(FIT, { scored: FIT }), decided(FIT, { scored: UNIT }), decided(UNIT, { scored: UNIT }), decided(UNIT, { scored: FIT }));
    expect(parted.withScoring.attributions).toMatchObject({ observedAgreement: 0.5, kappa: 0 });
    expect(parted.withScoring.cells).toHaveLength(4);
    expect([parted.counts.compared, parted.counts["same-attribution"]]).toEqual([4, 2]);
  });
});

describe("what a supplier is told", () => {
  test("tallies answers, and the range of what was measured", () => {
    expect(tally([{ finding: "F45", answer: "a" }, { finding: "F46", answer: "a" }, { finding: "F46", answer: "a" }]).map(({ finding, cases }) => [finding, cases])).toEqual([["F46", 2], ["F45", 1]]);
    expect(rangeOf([4, 1, 2, 3])).toEqual({ least: 1, median: 2.5, most: 4 });
    expect(rangeOf([])).toBeNull();
  });
  test("gives no name away, in whatever case or spacing, and does not stumble over a short one", () => {
    expect(givesAway("ask ADA  brink about it", ["Ada Brink"])).toBe("Ada Brink");
    expect(givesAway("all of it", ["Al", null])).toBeNull();
  });
});
