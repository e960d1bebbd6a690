import { expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { shownFinding } from "@/lib/domain/intake/shown-answers";
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
