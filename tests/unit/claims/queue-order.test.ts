import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { byRisk, isLate, type PlaceFacts, reasonForPlace, wroteInWords } from "@/lib/domain/claims/queue-order";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";

const NOW = new Date("2026-03-04T10:00:00Z");
const hours = (count: number) => new Date(NOW.getTime() + count * 3_600_000);
const place = (facts: Partial<PlaceFacts> = {}): PlaceFacts => ({ stage: "filed", stopsEngine: false, promisedAt: hours(4), firstAnswerAt: null, wroteAt: null, ...facts });

const somePlace = fc.record({
  stage: fc.constantFrom(...QUEUE_STAGES, "decided" as const),
  stopsEngine: fc.boolean(),
  promisedAt: fc.integer({ min: -100, max: 100 }).map(hours),
  firstAnswerAt: fc.option(fc.integer({ min: -200, max: -1 }).map(hours)),
  wroteAt: fc.option(fc.integer({ min: -200, max: -1 }).map(hours)),
});

describe("the order of the queue", () => {
  test("puts an engine that must stand still before a claim that is two days late", () => {
    expect([place({ promisedAt: hours(-48) }), place({ stopsEngine: true })].sort(byRisk)[0]?.stopsEngine).toBe(true);
  });

  test("puts what nobody has answered before what was answered, then the earlier promise", () => {
    const [answered, later, sooner] = [place({ firstAnswerAt: hours(-1), promisedAt: hours(-9) }), place({ promisedAt: hours(6) }), place({ promisedAt: hours(2) })];
    expect([answered, later, sooner].sort(byRisk)).toEqual([sooner, later, answered]);
  });

  test("puts a customer who has written since after what nobody has answered, and before what waits for others", () => {
    const [waits, wrote, ended, due] = [
      place({ firstAnswerAt: hours(-90) }),
      place({ firstAnswerAt: hours(-9), wroteAt: hours(-3) }),
      place({ stage: "decided", stopsEngine: true, firstAnswerAt: hours(-99), wroteAt: hours(-2) }),
      place({ promisedAt: hours(6) }),
    ];
    expect([waits, ended, wrote, due].sort(byRisk)).toEqual([due, wrote, ended, waits]);
    expect(wroteInWords({ ...wrote, isContested: false }, NOW)).toBe("wrote to us 3 hours ago");
    expect(wroteInWords({ ...wrote, isContested: true }, NOW)).toBe("sees the verdict otherwise, wrote 3 hours ago");
    expect(wroteInWords({ ...waits, isContested: false }, NOW)).toBeNull();
  });

  test("is an order: the same both ways round, and of three", () => {
    fc.assert(
      fc.property(somePlace, somePlace, somePlace, (a, b, c) => {
        expect(Math.sign(byRisk(a, b)) + Math.sign(byRisk(b, a))).toBe(0);
        if (byRisk(a, b) <= 0 && byRisk(b, c) <= 0) expect(byRisk(a, c)).toBeLessThanOrEqual(0);
      }),
    );
  });
});

describe("the reason for a place", () => {
  test("says what is at stake and how late it is", () => {
    expect(reasonForPlace(place({ stopsEngine: true, promisedAt: hours(-49) }), NOW)).toBe("2 days late");
  });

  test("says when the answer is due, in the largest whole unit", () => {
    expect(reasonForPlace(place({ promisedAt: hours(1) }), NOW)).toBe("answer due in 1 hour");
    expect(reasonForPlace(place({ promisedAt: hours(0.5) }), NOW)).toBe("answer due in 30 minutes");
    expect(reasonForPlace(place({ promisedAt: hours(47) }), NOW)).toBe("answer due in 47 hours");
  });

  test("says whom an answered claim waits for", () => {
    expect(reasonForPlace(place({ stage: "awaiting_checks", firstAnswerAt: hours(-1) }), NOW)).toBe("waits for the customer");
  });

  test("names lateness exactly where a promise was broken", () => {
    fc.assert(
      fc.property(somePlace, (facts) => {
        expect(reasonForPlace(facts, NOW).endsWith(" late")).toBe(facts.stage !== "decided" && isLate(facts, NOW));
      }),
    );
  });
});
