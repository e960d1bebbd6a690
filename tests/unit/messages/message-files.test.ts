import { isArgumentElement, isDateElement, isNumberElement, isPluralElement, isSelectElement, isTagElement, isTimeElement, type MessageFormatElement, parse } from "@formatjs/icu-messageformat-parser";
import { describe, expect, test } from "vitest";
import { LANGUAGES } from "@/lib/domain/claims/languages";
import { flat, MESSAGES, wordsIn } from "@/lib/messages/words";
import { LOOKED_UP, means, NAMED } from "./texts-looked-up";

const texts = Object.fromEntries(LANGUAGES.map((language) => [language, new Map(flat(MESSAGES[language], ""))]));
const english = texts.en ?? new Map<string, string>();

function factsIn(elements: readonly MessageFormatElement[]): string[] {
  return elements.flatMap((element): string[] => {
    if (isArgumentElement(element) || isNumberElement(element) || isDateElement(element) || isTimeElement(element)) return [element.value];
    if (isTagElement(element)) return [element.value, ...factsIn(element.children)];
    if (isPluralElement(element) || isSelectElement(element)) return [element.value, ...Object.values(element.options).flatMap(({ value }) => factsIn(value))];
    return [];
  });
}
/** What fills a text, by name, each once. */
const factsOf = (text: string) => [...new Set(factsIn(parse(text)))].sort();

describe("the message files", () => {
  test.each(LANGUAGES)("%s has every text of the English file, and no other", (language) => {
    expect([...(texts[language]?.keys() ?? [])]).toEqual([...english.keys()]);
  });

  test.each(LANGUAGES)("%s has no empty text, and none with a straight quote or two spaces", (language) => {
    const odd = [...(texts[language] ?? [])].filter(([, text]) => text.trim() === "" || text !== text.trim() || /['"]|\s\s/.test(text.replaceAll("\n", "")));
    expect(odd).toEqual([]);
  });

  test.each(LANGUAGES.filter((language) => language !== "en"))("%s fills its texts with the same facts", (language) => {
    const differing = [...english].filter(([name, text]) => factsOf(text).join() !== factsOf(texts[language]?.get(name) ?? "").join());
    expect(differing.map(([name]) => name)).toEqual([]);
  });

  test("say a text in the language asked for, and throw for one that is not there", () => {
    expect(wordsIn("de")("house.language")).toBe("Sprache");
    expect(() => (wordsIn("de") as unknown as (name: string) => string)("house.nothing")).toThrow();
  });
});

describe("the sources", () => {
  test("look texts up", () => {
    expect(LOOKED_UP.length).toBeGreaterThan(10);
  });

  test("look up no text that is not there", () => {
    const names = [...english.keys()];
    expect(LOOKED_UP.filter(({ name }) => !names.some((text) => means(name, text))).map(({ place, name }) => `${place} ${name}`)).toEqual([]);
  });

  test("leave no text unused", () => {
    const named = [...NAMED];
    const exact = new Set(named.filter((name) => !name.includes("*")));
    const open = named.filter((name) => name.includes("*") && /^[\w-]+\./.test(name));
    expect([...english.keys()].filter((text) => !exact.has(text) && !open.some((name) => means(name, text)))).toEqual([]);
  });

  test("give each text the facts that fill it, and no others", () => {
    const wrong = LOOKED_UP.flatMap(({ place, name, facts }) => {
      if (facts === null) return [];
      const needed = [...english].filter(([text]) => means(name, text)).map(([, text]) => factsOf(text));
      // Which of several texts is meant, and what fills that one, is TypeScript's to tell.
      const isFilled = name.includes("*") || needed.every((fact) => fact.every((one) => facts.includes(one)));
      return isFilled && facts.every((fact) => needed.some((one) => one.includes(fact))) ? [] : [`${place} ${name}`];
    });
    expect(wrong).toEqual([]);
  });
});
