import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { nextQuietStep, type QuietFacts } from "@/lib/domain/claims/reminders";

const DAYS = { firstReminderDays: 4, secondReminderDays: 8, lapseNoticeDays: 10, lapseDays: 14 };
const ASKED = new Date("2026-03-01T10:00:00Z");
const on = (day: number) => new Date(ASKED.getTime() + day * 86_400_000);
const QUIET: QuietFacts = { quietSince: ASKED, steps: 0, countedFrom: null, lapsesAt: null };

/** What happens over the days after the asking, looked at on these days. */
function story(lookedAt: readonly number[]): string[] {
  let facts = QUIET;
  return lookedAt.flatMap((day) => {
    const due = nextQuietStep(facts, DAYS, on(day));
    if (due.do === "remind" || due.do === "give notice") facts = { ...facts, steps: due.step, countedFrom: due.countFrom, lapsesAt: due.lapsesAt };
    return due.do === "nothing" ? [] : [`${due.do} on day ${day}`];
  });
}

describe("checks that nobody answers", () => {
  test("are reminded of twice, then comes a notice, then the end on the day it named", () => {
    expect(story(Array.from({ length: 15 }, (_, day) => day))).toEqual(["remind on day 4", "remind on day 8", "give notice on day 10", "lapse on day 14"]);
    expect(nextQuietStep({ ...QUIET, steps: 2, countedFrom: ASKED }, DAYS, on(10))).toMatchObject({ lapsesAt: on(14) });
  });

  test("keep the whole time between the steps when nothing ran for long", () => {
    expect(story([40, 41, 43, 44, 45, 46, 49, 50])).toEqual(["remind on day 40", "remind on day 44", "give notice on day 46", "lapse on day 50"]);
  });

  test("start anew with any word of the customer", () => {
    const heard: QuietFacts = { quietSince: on(11), steps: 3, countedFrom: ASKED, lapsesAt: on(14) };
    expect(nextQuietStep(heard, DAYS, on(14))).toEqual({ do: "nothing" });
    expect(nextQuietStep(heard, DAYS, on(15))).toMatchObject({ do: "remind", step: 1 });
  });

  test("never end without a notice given the whole time before", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 40 }), (days) => {
        const told = story([...days].sort((a, b) => a - b));
        const dayOf = (what: string) => Number(told.find((line) => line.startsWith(what))?.split(" ").at(-1));
        if (told.some((line) => line.startsWith("lapse"))) {
          expect(told.filter((line) => line.startsWith("remind"))).toHaveLength(2);
          expect(dayOf("lapse") - dayOf("give notice")).toBeGreaterThanOrEqual(DAYS.lapseDays - DAYS.lapseNoticeDays);
        }
      }),
    );
  });
});
