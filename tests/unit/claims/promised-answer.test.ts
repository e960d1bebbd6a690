import { describe, expect, test } from "vitest";
import { promisedAnswer } from "@/lib/domain/claims/promised-answer";
import type { WorkingHours } from "@/lib/domain/claims/working-hours";

const BERLIN: WorkingHours = { timeZone: "Europe/Berlin", workingDays: [1, 2, 3, 4, 5], opensAt: "08:00", closesAt: "17:00" };
const promised = (filed: string, hours: number, working = BERLIN) => promisedAnswer(new Date(filed), hours, working).toISOString();

describe("the promised answer", () => {
  test("counts working hours only", () => {
    expect(promised("2026-11-25T09:00:00Z", 2)).toBe("2026-11-25T11:00:00.000Z");
    expect(promised("2026-11-25T15:00:00Z", 8)).toBe("2026-11-26T14:00:00.000Z");
  });

  test("starts when somebody is there", () => {
    expect(promised("2026-11-25T03:00:00Z", 1)).toBe("2026-11-25T08:00:00.000Z");
    expect(promised("2026-11-28T12:00:00Z", 8)).toBe("2026-11-30T15:00:00.000Z");
  });

  test("keeps to the wall clock when the clocks change over the weekend", () => {
    // Friday 27 March 2026 16:00 local is 15:00 UTC; Monday 30 March 15:00 local is 13:00 UTC.
    expect(promised("2026-03-27T15:00:00Z", 8)).toBe("2026-03-30T13:00:00.000Z");
    expect(promised("2026-10-23T14:00:00Z", 8)).toBe("2026-10-26T14:00:00.000Z");
  });

  test("knows the seller's day, not ours", () => {
    const auckland = { ...BERLIN, timeZone: "Pacific/Auckland" };
    // Sunday 21:00 UTC is Monday 10:00 there.
    expect(promised("2026-11-29T21:00:00Z", 1, auckland)).toBe("2026-11-29T22:00:00.000Z");
  });

  test("needs somebody who works", () => {
    expect(() => promised("2026-11-25T09:00:00Z", 1, { ...BERLIN, workingDays: [] })).toThrow(/working day/);
  });
});
