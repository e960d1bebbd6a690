import { describe, expect, test } from "vitest";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { germanSyllables, readingAge } from "./reading-age";
import { textBlocks } from "./text-blocks";

/** What people of about this age read without help. */
const AGE = 12;

describe("the formula", () => {
  test("takes longer sentences and longer words for harder", () => {
    expect(readingAge("The oil runs out. It is hot.", "en")).toBeLessThan(readingAge("The lubricant accumulated inside the housing subsequently discharges unexpectedly.", "en"));
    expect(readingAge("Das Öl läuft aus. Es ist heiß.", "de")).toBeLessThan(readingAge("Die vorgeschriebenen Wartungsarbeiten berücksichtigen insbesondere unterschiedliche Betriebsbedingungen.", "de"));
  });

  test("counts the syllables of German words", () => {
    expect(["Öl", "Kurbelgehäuse", "Einbausatz", "Motor", "läuft", "Seite", "prüfen", "Fahrzeug"].map(germanSyllables)).toEqual([1, 5, 3, 2, 1, 2, 2, 2]);
  });
});

describe.each(LANGUAGES)("what customers read in %s", (language) => {
  const blocks = [...textBlocks(language)];

  test("is measured whole", () => {
    expect(blocks.length).toBeGreaterThan(80);
  });

  test(`is read without help at about ${AGE}`, () => {
    const hard = blocks.map(([name, text]) => ({ name, age: readingAge(text, language) })).filter(({ age }) => age > AGE);
    expect(hard.map(({ name, age }) => `${name}: ${age.toFixed(1)}`)).toEqual([]);
  });
});
