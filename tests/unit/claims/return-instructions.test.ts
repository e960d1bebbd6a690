import { describe, expect, test } from "vitest";
import { returnInstructions } from "@/lib/domain/claims/return-instructions";
import { returnMail } from "@/lib/mail/return-mails";

const seller = { name: "Turbo Works", phone: "", returnAddress: "Turbo Works\nReturns\n4 Mill Lane" };
const facts = { number: "R-ABCD", sendBy: "Friday, 1 May 2026", seller };

describe("how to send the unit in", () => {
  test("names the firm once, with a number, a day and an address", () => {
    const words = returnInstructions(facts).join("\n");
    expect(words.split("Turbo Works")).toHaveLength(2);
    for (const fact of ["R-ABCD", "Friday, 1 May 2026", "Turbo Works\nReturns\n4 Mill Lane"]) expect(words).toContain(fact);
    expect(words).not.toMatch(/drain/i);
  });

  test("stands in the mail in the same words", () => {
    const { text } = returnMail({ name: "Ada", reference: "ABCD", number: facts.number, until: facts.sendBy, note: "", link: "https://shop.example/x", seller });
    for (const paragraph of returnInstructions(facts)) expect(text).toContain(paragraph);
  });
});
