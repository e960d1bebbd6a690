import { describe, expect, test } from "vitest";
import { NOTHING_PROMISED } from "@/lib/domain/claims/bookings";
import { composeLetter, type LetterFacts } from "@/lib/domain/claims/letter";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import type { CauseCode } from "@/lib/domain/diagnosis/knowledge";
import { sayIn } from "@/lib/messages/words";

function cause(code: CauseCode) {
  const found = edition1.causes.find((known) => known.code === code);
  if (!found) throw new Error(`edition 1 has no ${code}`);
  return found;
}

const facts: LetterFacts = {
  name: "Ada \u00d6rnek",
  reference: "K7MP-4Q2-HXW",
  about: "Tarn 62",
  findings: [
    { part: "drain", name: "Run of the drain", answer: "It runs level", observer: "customer" },
    { part: "shaft", name: "Fore-and-aft play", answer: "0.07 mm", observer: "bench" },
  ],
  primary: cause("C01"),
  contributing: [],
  attribution: "fit",
  origin: "fitter",
  remedy: "advice",
  promise: NOTHING_PROMISED,
  objection: null,
  stop: null,
  explanation: "",
  seller: { name: "Brackenhalt", phone: "" },
};
const letter = (changes: Partial<LetterFacts> = {}) => composeLetter({ ...facts, ...changes }, edition1, sayIn("en"));

describe("the letter", () => {
  test("greets by name and says which complaint it answers", () => {
    expect(letter()).toMatch(/^Dear Ada \u00d6rnek,\n\n.*K7MP-4Q2-HXW about Tarn 62/);
  });

  test("tells what was seen, by whom, with the number of the drawing", () => {
    expect(letter()).toContain("What you told us:\n(3) Run of the drain: It runs level");
    expect(letter()).toContain("What we saw on our bench:\n(2) Fore-and-aft play: 0.07 mm");
  });

  test("tells what to do next for every cause, and how to have it looked at again", () => {
    const text = letter({ contributing: [cause("C06")] });
    expect(text).toContain(`(3) ${cause("C01").advice}`);
    expect(text).toContain(`(5) ${cause("C06").advice}`);
    expect(text).toContain("If you see it otherwise:");
  });

  test("tells whoever could start the engine to leave it off, where it must stand still", () => {
    expect(letter()).not.toContain("Do not run the engine");
    expect(letter({ stop: "oil-on-hot-parts" })).toContain("Do not run the engine: oil may reach hot parts.");
  });

  test("tells the sum and who bears it, the deposit and the carriage", () => {
    const promise = { promisedMinor: 40_001, promisedCurrency: "EUR", sellerPercent: 70, coreDepositMinor: 15_000, paysCarriage: true };
    expect(letter({ remedy: "goodwill", promise })).toContain("It comes to \u20ac400.01. We bear 70 per cent of it, \u20ac280.01; \u20ac120.00 remain with you.");
    expect(letter({ remedy: "replacement", promise: { ...promise, promisedMinor: null } })).toContain("a deposit of \u20ac150.00 for the old unit");
    expect(letter({ remedy: "refund", promise: { ...NOTHING_PROMISED, promisedMinor: 89_000, promisedCurrency: "EUR" } })).toContain("That is \u20ac890.00.");
    expect(composeLetter({ ...facts, remedy: "goodwill", promise }, edition1, sayIn("de"))).toContain("70 Prozent");
  });

  test("puts what was said against the last one above its answer", () => {
    const text = letter({ objection: "The garage says the fitting is fine.", explanation: "The photo shows a level run." });
    expect(text).toMatch(/about our last letter:\nThe garage says the fitting is fine\.\n\nOur answer:\nThe photo shows a level run\./);
  });

  test("gives staff's own words right below what the verdict means", () => {
    const text = letter({ explanation: "The drain was clear; the engine breathes into it at idle." });
    expect(text.indexOf("The drain was clear")).toBeGreaterThan(text.indexOf("What it means:"));
    expect(text.indexOf("The drain was clear")).toBeLessThan(text.indexOf("What we do:"));
  });

  test("never blames anybody, whatever the verdict", () => {
    for (const attribution of ATTRIBUTIONS) {
      for (const remedy of REMEDIES) {
        const text = letter({ attribution, remedy, origin: attribution === "kit" ? "kit" : null });
        expect(text).not.toMatch(/\b(fault of|blame|careless|wrongly|mistake|negligen|improper|your own fault)/i);
        expect(text).not.toMatch(/undefined|null|\[object/);
        // Paragraphs are parted by one empty line, so that a mail can be cut by them.
        expect(text).not.toMatch(/\n{3,}|[ \t]\n/);
      }
    }
  });
});
