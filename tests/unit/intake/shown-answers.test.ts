import { expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { runInWords, shownFinding } from "@/lib/domain/intake/shown-answers";
import { sayIn } from "@/lib/messages/words";

/** A finding as it is read back, with the unit it was kept or typed in. */
function read(code: string, measured: number, language: (typeof LANGUAGES)[number], typedUnit: string | null): string | null {
  const definition = edition1.findings.find((finding) => finding.code === code);
  return definition ? shownFinding(definition, { answer: null, measured, typedValue: typedUnit && String(measured), typedUnit }, sayIn(language)) : null;
}

test("an amount is read back with its unit's sign, and a count in no language with an English word", () => {
  for (const language of LANGUAGES) {
    for (const kept of [true, false]) {
      expect(read("F54", 2, language, kept ? null : "elbows")).toBe("2");
      expect(read("F53", -3, language, kept ? null : "deg")).toBe("-3\u00b0");
      expect(read("F13", 12, language, kept ? null : "mm")).toBe("12 mm");
    }
  }
});

/** What was typed about the axial play, as a letter in that language tells it. */
function playTyped(typedValue: string, language: (typeof LANGUAGES)[number]): string | null {
  const play = edition1.findings.find(({ code }) => code === "F41");
  return play ? shownFinding(play, { answer: null, measured: 0.35, typedValue, typedUnit: "mm" }, sayIn(language)) : null;
}

test("a number is told with the decimal sign of its reader, whichever was typed, and as well as it was read", () => {
  expect(playTyped("0.35", "de")).toBe("0,35 mm");
  expect(playTyped("0,35", "en")).toBe("0.35 mm");
  expect(playTyped("0.350", "de")).toBe("0,350 mm");
  expect(playTyped("0.35", "en")).toBe("0.35 mm");
  expect(playTyped("-0.5", "de")).toBe("-0,5 mm");
  expect(playTyped("3/8", "de")).toBe("3/8 mm");
});

test("how far it has run is told with the decimal sign of its reader", () => {
  const told = { answers: { fitting: { run: "12.5", "run-unit": "h" } }, hoursRun: 12.5, distanceKm: null };
  expect(runInWords(told, sayIn("de"))).toMatch(/^12,5 /);
  expect(runInWords(told, sayIn("en"))).toMatch(/^12\.5 /);
});
