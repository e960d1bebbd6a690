import { describe, expect, test } from "vitest";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { parseTypedNumber } from "@/lib/domain/intake/fields";
import type { IntakeAnswers, Screen } from "@/lib/domain/intake/answers";
import { NOTHING_KNOWN } from "@/lib/domain/intake/questions";
import { describeScreen } from "@/lib/domain/intake/screens";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";

const CHOICES = { kits: [], vehicles: [{ id: "vehicle", name: "Halvorn Carrow" }], items: [] };

function refused(screen: Screen, values: Record<string, string>, answers: IntakeAnswers = {}): Record<string, string> {
  const { fields } = describeScreen(screen, { answers, purchase: NOTHING_KNOWN }, edition1, CHOICES, "2026-11-25", sayIn("en"));
  const form = new FormData();
  for (const [name, value] of Object.entries(values)) form.set(name, value);
  const parsed = screenSchema(fields, sayIn("en")).safeParse(typedValues(fields, form));
  return parsed.success ? {} : messagesOf(parsed.error);
}

describe("a screen's schema", () => {
  test("says what is missing, at the field", () => {
    expect(refused("contact", {})).toEqual({ name: "Write your name", email: "Write your e-mail address" });
    expect(refused("oil", { place: "turbine" })).toHaveProperty("elsewhere");
    expect(refused("oil", { place: "both" })).toEqual({});
  });

  test("takes a comma or a point, in either unit, and questions what cannot be", () => {
    expect(refused("drain-size", { F13: "12,5", F14: "-40" })).toEqual({});
    expect(refused("drain-size", { F13: "0.5", "F13-unit": "in" })).toEqual({});
    expect(refused("drain-size", { F13: "" })).toEqual({});
    expect(refused("drain-size", { F13: "wide" }).F13).toMatch(/number in figures/);
    expect(refused("drain-size", { F13: "900" }).F13).toBe("Bore of the drain cannot be above 600 mm");
    expect(refused("drain-size", { F13: "-12" }).F13).toBe("Bore of the drain cannot be negative");
    expect(refused("drain-size", { F13: "3", "F13-unit": "in" }).F13).toMatch(/usually 0.12 to 2.4 in/);
  });

  test("asks about a number that is unusual, and takes it once it is ticked as it stands", () => {
    expect(refused("drain-size", { F13: "127" }).F13).toBe("127 mm is unusual here (usually 3 to 60 mm). Did you mean 12.7 mm, or is the unit wrong? Write it again, or tick that it is right");
    expect(refused("drain-size", { F13: "127", "F13-confirmed": "127 mm" })).toEqual({});
    expect(refused("drain-size", { F13: "128", "F13-confirmed": "127 mm" })).toHaveProperty("F13");
    expect(refused("drain-size", { F13: "127", "F13-unit": "in", "F13-confirmed": "127 mm" })).toHaveProperty("F13");
    expect(refused("drain-size", { F13: "-12", "F13-confirmed": "-12 mm" })).toHaveProperty("F13");
  });

  test("asks again where a mark may part thousands or decimals, and only there", () => {
    const run = (typed: string, unit = "km") => refused("fitting", { run: typed, "run-unit": unit, fitter: "self" }).run;
    expect(run("1.200")).toBe("This can be read in two ways. Write 1200 or 1.2");
    expect(run("12,500", "mi")).toBe("This can be read in two ways. Write 12500 or 12.5");
    for (const plain of ["1200", "1 200", "1.2", "1200.5", "0.250", "310"]) expect(run(plain), plain).toBeUndefined();
    expect(run("1.200,5")).toMatch(/number in figures/);
    expect(refused("drain-size", { F13: "1.125", "F13-unit": "in" })).toEqual({});
    expect(refused("drain-size", { F13: "12.500" })).toEqual({});
  });

  test("takes inches as fractions", () => {
    for (const typed of ["5/8", "1 1/2", "1-1/2", "1\u00bd"]) expect(refused("drain-size", { F13: typed, "F13-unit": "in" }), typed).toEqual({});
    expect(refused("drain-size", { F13: "5/8", "F13-unit": "mm" }).F13).toMatch(/usually 3 to 60 mm.*Did you mean 6.25 mm or 5\/8 in/);
  });

  test("refuses days that do not exist or lie ahead", () => {
    const fitting = (fittedOn: string) => refused("fitting", { fittedOn, fitter: "self" }).fittedOn;
    expect(fitting("2026-11-25")).toBeUndefined();
    expect(fitting("2026-11-26")).toMatch(/future/);
    expect(fitting("2026-02-30")).toMatch(/exists/);
    expect(fitting("yesterday")).toMatch(/exists/);
    expect(fitting("0001-01-01")).toMatch(/long ago/);
  });

  test("refuses what is longer than the field, and takes every sign that fits", () => {
    const long = "😀".repeat(5000);
    expect(refused("contact", { name: long, email: long, phone: long })).toEqual({
      name: expect.stringMatching(/100 characters/),
      email: expect.stringMatching(/characters|e-mail/),
      phone: expect.stringMatching(/characters|telephone/),
    });
    expect(refused("pictures", { words: "😀".repeat(2000) })).toEqual({});
    expect(refused("pictures", { words: "a".repeat(4001) }).words).toMatch(/4,000/);
    expect(refused("contact", { name: "Ada Örnek 😀", email: "ada@example.com", phone: "+49 (30) 90-1820" })).toEqual({});
  });

  test("counts a line break of a text area once, and drops control signs", () => {
    expect(refused("pictures", { words: `${"a\r\n".repeat(2000)}` })).toEqual({});
    expect(refused("contact", { name: "A\u0000da", email: "ada@example.com" })).toEqual({});
  });

  test("takes only plain addresses: no quoting, no look-alike signs", () => {
    for (const email of ["ada", "ada@example", '"a b"@example.com', "ada@exam＠ple.com", "ada@example.com, eve@example.com", "ada@-example.com"]) {
      expect(refused("contact", { name: "Ada", email }).email, email).toBeDefined();
    }
  });

  test("refuses an answer the question does not offer", () => {
    expect(refused("drain", { F12: "sideways" })).toEqual({ F12: "Choose one of the answers" });
  });
});

describe("a typed number", () => {
  test("is read as people write it", () => {
    expect(parseTypedNumber(" 1 250,5 ")).toBe(1250.5);
    expect(parseTypedNumber("\u221240")).toBe(-40);
    expect(parseTypedNumber("5/8")).toBe(0.625);
    expect(parseTypedNumber(" 1 1/2 ")).toBe(1.5);
    expect(parseTypedNumber("1\u00bd")).toBe(1.5);
    for (const typed of ["", "1.250,5", "1e5", "12mm", "Infinity", "0x10", "1/0", "1/2/3", "/8"]) expect(parseTypedNumber(typed), typed).toBeNull();
  });
});
