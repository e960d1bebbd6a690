import { expect, test } from "vitest";
import { runInWords } from "@/lib/domain/intake/shown-answers";
import { sayIn } from "@/lib/messages/words";

test("a run is told as it was typed, in its unit; else in whole kilometres or hours", () => {
  expect(runInWords({ answers: { fitting: { run: "310", "run-unit": "mi" } }, hoursRun: null, distanceKm: 310 * 1.609344 }, sayIn("en"))).toBe("310 miles");
  expect(runInWords({ answers: {}, hoursRun: null, distanceKm: 498.897 }, sayIn("en"))).toBe("499 km");
  expect(runInWords({ answers: {}, hoursRun: 1204.4, distanceKm: null }, sayIn("en"))).toBe("1,204 hours");
  expect(runInWords({ answers: { fitting: { run: "" } }, hoursRun: null, distanceKm: null }, sayIn("en"))).toBeNull();
});
