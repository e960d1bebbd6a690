import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { OBSERVERS } from "@/lib/domain/diagnosis/knowledge";
import { possibleRange } from "@/lib/domain/diagnosis/possible-range";
import { rankCauses } from "@/lib/domain/diagnosis/rank-causes";
import type { FieldUnit, IntakeField } from "@/lib/domain/intake/fields";
import { findingField } from "@/lib/domain/intake/screens";
import { typedFinding } from "@/lib/domain/intake/typed-finding";
import { CONFIRMED_AS_UNUSUAL, likelyMeant, unusualNumber, unusualSentence } from "@/lib/domain/intake/unusual-number";
import { sayIn } from "@/lib/messages/words";

type NumberField = IntakeField & { kind: "number" };

const measurements = edition1.findings.filter((finding) => finding.kind === "measurement");

function numberField(code: string): NumberField {
  const field = measurements.filter((finding) => finding.code === code).map((finding) => findingField(finding, sayIn("en")))[0];
  if (field?.kind !== "number") throw new Error(`${code} is no measurement`);
  return field;
}

const unitOf = ({ units }: NumberField, value: string): FieldUnit => units.find((unit) => unit.value === value) ?? { value, label: value, factor: Number.NaN };

describe("the possible range", () => {
  test("goes ten times as far as the usual one, and below 0 only where that does", () => {
    expect(possibleRange({ min: 3, max: 60 })).toEqual({ min: 0.3, max: 600 });
    expect(possibleRange({ min: 0, max: 5 })).toEqual({ min: 0, max: 50 });
    expect(possibleRange({ min: -300, max: 1500 })).toEqual({ min: -3000, max: 15_000 });
    expect(possibleRange({ min: -50, max: -5 })).toEqual({ min: -500, max: -0.5 });
  });

  test("holds the usual one, and its ends leave a ranking that is made of numbers", () => {
    for (const { code, plausible, observers } of measurements) {
      const { min, max } = possibleRange(plausible);
      expect(min <= plausible.min && max >= plausible.max, code).toBe(true);
      for (const measured of [min, max]) {
        const observer = OBSERVERS.findLast((one) => observers.includes(one));
        if (!observer) continue;
        const ranking = rankCauses([{ finding: "F01", observer: "technician", answer: "present" }, { finding: code, observer, measured }], edition1);
        const isOfNumbers = ranking.outcome === "ranked" && ranking.causes.every(({ probability }) => probability >= 0 && probability <= 1);
        expect(isOfNumbers, `${code} at ${measured}`).toBe(true);
      }
    }
  });
});

describe("an unusual number", () => {
  test("may be a slipped decimal mark or another unit", () => {
    const bore = numberField("F13");
    expect(likelyMeant(bore, "127", unitOf(bore, "mm"), "en")).toEqual(["12.7 mm"]);
    expect(likelyMeant(bore, "127", unitOf(bore, "mm"), "de")).toEqual(["12,7 mm"]);
    expect(likelyMeant(bore, "0,5", unitOf(bore, "mm"), "en")).toEqual(["5 mm", "0,5 in"]);
    expect(likelyMeant(bore, "12", unitOf(bore, "in"), "en")).toEqual(["1.2 in", "12 mm"]);
  });

  test("is asked about in the words and figures of the customer's language", () => {
    const bore = numberField("F13");
    const about = (typed: string, language: "en" | "de") => unusualSentence(bore, { F13: typed, "F13-unit": "mm" }, sayIn(language));
    expect(about("127", "en")).toBe("127 mm is unusual here (usually 3 to 60 mm). Did you mean 12.7 mm, or is the unit wrong? Write it again, or tick that it is right");
    expect(about("127", "de")).toMatch(/^127 mm ist hier ungewöhnlich \(meist 3 bis 60 mm\)\. Meinten Sie 12,7 mm/);
    expect(about("0,1", "de")).toContain("0,3 mm");
    expect(about("12.7", "en")).toBeNull();
  });

  test("is kept as typed, with a note, once it is confirmed", () => {
    const bore = numberField("F13");
    const values = { F13: "127", "F13-unit": "mm" };
    expect(unusualNumber(bore, values)).toMatchObject({ typed: "127 mm", isPossible: true, isConfirmed: false });
    expect(typedFinding(bore, { ...values, "F13-confirmed": "127 mm" })).toEqual({ code: "F13", answer: null, measured: 127, typedValue: "127", typedUnit: "mm", note: CONFIRMED_AS_UNUSUAL });
    expect(typedFinding(bore, { ...values, F13: "12.7", "F13-confirmed": "127 mm" })).not.toHaveProperty("note");
    expect(unusualNumber(bore, { F13: "12.7" })).toBeNull();
    expect(unusualNumber(bore, { F13: "wide" })).toBeNull();
  });
});
