import { describe, expect, test } from "vitest";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { PAIR_UNITS, type PairUnit } from "@/lib/domain/claims/pair-units";
import { returnInstructions } from "@/lib/domain/claims/return-instructions";
import { returnMail } from "@/lib/mail/return-mails";
import { sayIn, wordsIn } from "@/lib/messages/words";

const seller = { name: "Turbo Works", phone: "", returnAddress: "Turbo Works\nReturns\n4 Mill Lane" };
const facts = { number: "R-ABCD", sendBy: "Friday, 1 May 2026", pairUnit: null, seller };

describe.each(LANGUAGES)("how to send the unit in (%s)", (language) => {
  const { whereTo, steps } = returnInstructions(facts, sayIn(language));

  test("names the firm once, with a number, a day and an address", () => {
    const text = [whereTo, ...steps].join("\n");
    expect(text.split("Turbo Works")).toHaveLength(2);
    for (const fact of ["R-ABCD", "Friday, 1 May 2026", "Turbo Works\nReturns\n4 Mill Lane"]) expect(text).toContain(fact);
    // The drain is a pipe: letting out oil is told in other words.
    expect(text).not.toMatch(/drain|rücklauf/i);
  });

  test("says which turbo of a pair is wanted, before anything else", () => {
    const firstOf = (pairUnit: PairUnit) => returnInstructions({ ...facts, pairUnit }, sayIn(language)).steps[0];
    expect(new Set([steps[0], ...PAIR_UNITS.map(firstOf)]).size).toBe(1 + PAIR_UNITS.length);
  });

  test("stands in the mail in the same words", () => {
    const { text } = returnMail({ name: "Ada", reference: "ABCD", number: facts.number, until: facts.sendBy, note: "", pairUnit: null, link: "https://shop.example/x", seller }, wordsIn(language));
    for (const paragraph of [whereTo, ...steps]) expect(text).toContain(paragraph);
  });
});
