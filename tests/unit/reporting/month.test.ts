import { expect, it } from "vitest";
import { monthInWords, monthsLater, periodInWords, yearUpTo } from "@/lib/domain/reporting/month";

it.each([
  ["2026-11", 1, "2026-12"],
  ["2026-12", 1, "2027-01"],
  ["2026-01", -1, "2025-12"],
  ["2026-06", -30, "2023-12"],
  ["2026-06", 0, "2026-06"],
])("%s and %s months is %s", (month, months, later) => {
  expect(monthsLater(month, months)).toBe(later);
});

it("counts twelve months up to one", () => {
  expect(yearUpTo("2026-11")).toEqual({ from: "2025-12", to: "2026-11" });
});

it("tells a period in words", () => {
  expect(monthInWords("2026-01")).toBe("January 2026");
  expect(periodInWords({ from: "2026-01", to: "2026-10" })).toBe("from January 2026 to October 2026");
  expect(periodInWords({ from: "2026-12", to: "2026-12" })).toBe("in December 2026");
});
