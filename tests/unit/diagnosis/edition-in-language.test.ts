import { describe, expect, test } from "vitest";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { customerTexts, editionInLanguage, translationOf } from "@/lib/domain/diagnosis/edition-in-language";
import type { Edition } from "@/lib/domain/diagnosis/knowledge";
import { fromStored } from "@/lib/domain/diagnosis/stored-edition";

const others = LANGUAGES.filter((language) => language !== "en");

/** Grades of oil are the same in every language. */
const isAlike = (text: string) => /^\d+W-\d+$/.test(text);

describe("the first edition", () => {
  test.each(others)("has every text that customers read in %s too, and none that says the same", (language) => {
    const english = customerTexts(edition1);
    expect(english.size).toBeGreaterThan(380);
    const missing = [...english].filter(([name, text]) => translationOf(name, text, edition1.translations[language]).state !== "there");
    expect(missing.map(([name]) => name)).toEqual([]);
    const untranslated = [...customerTexts(editionInLanguage(edition1, language))].filter(([name, text]) => text === english.get(name) && !isAlike(text));
    expect(untranslated.map(([name]) => name)).toEqual([]);
  });

  test("has nothing in another language that customers never read", () => {
    const names = customerTexts(edition1);
    expect(Object.keys(edition1.translations.de ?? {}).filter((name) => !names.has(name))).toEqual([]);
    expect(names.has("causes.C01.name")).toBe(false);
    expect(names.has("findings.F45.question")).toBe(false);
    expect(names.has("findings.F45.name")).toBe(true);
  });
});

describe("an edition in another language", () => {
  const reworded: Edition = { ...edition1, number: 2, findings: edition1.findings.map((one) => (one.code === "F12" ? { ...one, question: "Does the drain fall everywhere?" } : one)) };
  const questionOf = (edition: Edition) => edition.findings.find(({ code }) => code === "F12")?.question;

  test("says everything but its texts alike", () => {
    const german = editionInLanguage(edition1, "de");
    expect(questionOf(german)).toBe("Fällt der Ölrücklauf vom Lader bis zum Motor überall ab?");
    const silent = (edition: Edition) => JSON.stringify(edition, (key, value: unknown) => (["plainName", "advice", "name", "question", "why", "how", "tools", "label"].includes(key) ? undefined : value));
    expect(silent(german)).toBe(silent(edition1));
    expect(german.findings.map(({ tools }) => tools.length)).toEqual(edition1.findings.map(({ tools }) => tools.length));
  });

  test("falls back to English for one text that was reworded, and keeps the others", () => {
    const german = editionInLanguage(reworded, "de");
    expect(questionOf(german)).toBe("Does the drain fall everywhere?");
    expect(german.findings.find(({ code }) => code === "F12")?.why).toMatch(/^Das Öl läuft/);
    expect(translationOf("findings.F12.question", "Does the drain fall everywhere?", reworded.translations.de)).toMatchObject({ state: "stale", of: questionOf(edition1) });
  });

  test("kept before there were others reads them from the first edition", () => {
    const { translations: _, ...old } = reworded;
    const german = editionInLanguage(fromStored(JSON.parse(JSON.stringify(old))), "de");
    expect(questionOf(german)).toBe("Does the drain fall everywhere?");
    expect(german.causes[0]?.plainName).toMatch(/^Der Ölrücklauf/);
  });

  test("is made once", () => {
    expect(editionInLanguage(edition1, "de")).toBe(editionInLanguage(edition1, "de"));
    expect(editionInLanguage(edition1, "en")).toBe(edition1);
  });
});
