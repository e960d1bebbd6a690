import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { byRisk, callInWords, comesToDesk, dueAt, isLate, type PlaceFacts, reasonForPlace, worthInWords, wroteInWords } from "@/lib/domain/claims/queue-order";
import { QUEUE_STAGES } from "@/lib/domain/claims/stages";

const NOW = new Date("2026-03-04T10:00:00Z");
const hours = (count: number) => new Date(NOW.getTime() + count * 3_600_000);
const place = (facts: Partial<PlaceFacts> = {}): PlaceFacts => ({ stage: "filed", stopsEngine: false, promisedAt: hours(4), firstAnswerAt: null, wroteAt: null, deskSince: null, lookValue: null, ...facts });

const inOrder = (a: PlaceFacts, b: PlaceFacts) => byRisk(a, b, NOW);

const somePlace = fc.record({
  stage: fc.constantFrom(...QUEUE_STAGES, "decided" as const),
  stopsEngine: fc.boolean(),
  promisedAt: fc.integer({ min: -100, max: 100 }).map(hours),
  firstAnswerAt: fc.option(fc.integer({ min: -200, max: -1 }).map(hours)),
  wroteAt: fc.option(fc.integer({ min: -200, max: -1 }).map(hours)),
  deskSince: fc.option(fc.integer({ min: -200, max: -1 }).map(hours)),
  lookValue: fc.option(fc.integer({ min: 0, max: 5 })),
});

describe("the order of the queue", () => {
  test("puts an engine that must stand still before a claim that is two days late", () => {
    expect([place({ promisedAt: hours(-48) }), place({ stopsEngine: true })].sort(inOrder)[0]?.stopsEngine).toBe(true);
  });

  test("works what is late or due within four hours by time, and the rest by what a look should save", () => {
    const [late, soon, worthy, worthLess] = [place({ promisedAt: hours(-9), lookValue: 0 }), place({ promisedAt: hours(4), lookValue: 1 }), place({ promisedAt: hours(20), lookValue: 60 }), place({ promisedAt: hours(5), lookValue: 3 })];
    expect([worthLess, worthy, soon, late].sort(inOrder)).toEqual([late, soon, worthy, worthLess]);
  });

  test("makes a message pressing a day after it came, and a claim that came back after three", () => {
    expect(dueAt(place({ firstAnswerAt: hours(-90), wroteAt: hours(-21) }))).toEqual(hours(3));
    expect(dueAt(place({ stage: "in_review", firstAnswerAt: hours(-90), deskSince: hours(-70) }))).toEqual(hours(2));
    expect(dueAt(place({ stage: "awaiting_checks", firstAnswerAt: hours(-90), deskSince: hours(-70) }))).toBeNull();
    const [back, worthy] = [place({ stage: "in_review", firstAnswerAt: hours(-90), deskSince: hours(-70), lookValue: 0 }), place({ promisedAt: hours(20), lookValue: 60 })];
    expect([worthy, back].sort(inOrder)).toEqual([back, worthy]);
  });

  test("puts what nobody has answered before what was answered, then the earlier promise", () => {
    const [answered, later, sooner] = [place({ firstAnswerAt: hours(-1), promisedAt: hours(-9) }), place({ promisedAt: hours(6) }), place({ promisedAt: hours(2) })];
    expect([answered, later, sooner].sort(inOrder)).toEqual([sooner, later, answered]);
  });

  test("puts a customer who has written since before what waits for others, the one who wrote first before the other", () => {
    const [waits, wrote, ended, due] = [
      place({ stage: "awaiting_checks", firstAnswerAt: hours(-90) }),
      place({ firstAnswerAt: hours(-9), wroteAt: hours(-3) }),
      place({ stage: "decided", stopsEngine: true, firstAnswerAt: hours(-99), wroteAt: hours(-2) }),
      place({ promisedAt: hours(6) }),
    ];
    expect([waits, ended, wrote, due].sort(inOrder)).toEqual([due, wrote, ended, waits]);
    expect(wroteInWords({ ...wrote, isContested: false }, NOW)).toBe("wrote to us 3 hours ago");
    expect(wroteInWords({ ...wrote, isContested: true }, NOW)).toBe("sees the verdict otherwise, wrote 3 hours ago");
    expect(wroteInWords({ ...waits, isContested: false }, NOW)).toBeNull();
  });

  test("is an order: the same both ways round, and of three", () => {
    fc.assert(
      fc.property(somePlace, somePlace, somePlace, (a, b, c) => {
        expect(Math.sign(inOrder(a, b)) + Math.sign(inOrder(b, a))).toBe(0);
        if (inOrder(a, b) <= 0 && inOrder(b, c) <= 0) expect(inOrder(a, c)).toBeLessThanOrEqual(0);
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

  test("says how long a claim has been back, and what one more look should save while it is staff\u2019s turn", () => {
    expect(reasonForPlace(place({ stage: "in_review", firstAnswerAt: hours(-90), deskSince: hours(-5) }), NOW)).toBe("back at the desk for 5 hours, to be decided");
    const money = (sum: number) => `${sum} marks`;
    expect(worthInWords(place({ lookValue: 38 }), money)).toBe("one more look should save about 38 marks");
    expect(worthInWords(place({ lookValue: 0.5 }), money)).toBe("no look pays any more: ready to be decided");
    expect(worthInWords(place({ stage: "awaiting_checks", lookValue: 38 }), money)).toBeNull();
    expect(worthInWords(place({ lookValue: null }), money)).toBeNull();
  });

  test("says when the customer has to be called", () => {
    expect(callInWords({ email: "a@example.com", hasBounced: false })).toBeNull();
    expect(callInWords({ email: "a@example.com", hasBounced: true })).toBe("mail did not reach the customer: call");
    expect(callInWords({ email: null, hasBounced: false })).toBe("no e-mail address: call");
  });

  test("tells what brings a claim to the desk from what only passes it on there", () => {
    expect(comesToDesk("awaiting_checks", "in_review")).toBe(true);
    expect(comesToDesk("draft", "filed")).toBe(true);
    expect(comesToDesk("filed", "in_review")).toBe(false);
  });

  test("names lateness exactly where a promise was broken", () => {
    fc.assert(
      fc.property(somePlace, (facts) => {
        expect(reasonForPlace(facts, NOW).endsWith(" late")).toBe(facts.stage !== "decided" && isLate(facts, NOW));
      }),
    );
  });
});
