import "server-only";
import { createTranslator } from "use-intl/core";
import { FIRST_LANGUAGE, LANGUAGES, type Language } from "@/lib/domain/claims/languages";
import type { Say } from "@/lib/domain/say";
import { LOCALES } from "./dates";
import de from "./de.json";
import en from "./en.json";

/** Every language has the texts of the English file, by the same names. */
export type Messages = typeof en;
export const MESSAGES: Readonly<Record<Language, Messages>> = { en, de };

const translatorOf = (language: Language) =>
  Object.assign(
    createTranslator({
      locale: LOCALES[language],
      messages: MESSAGES[language],
      onError: (error) => {
        throw error;
      },
    }),
    { language },
  );

/** Looks texts up by name, `words("start.heading")`; names are checked by TypeScript. */
export type Words = ReturnType<typeof translatorOf>;

const WORDS = new Map<Language, Words>(LANGUAGES.map((language) => [language, translatorOf(language)]));

/** The texts of a language, for pages and mails. */
export function wordsIn(language: Language): Words {
  const words = WORDS.get(language);
  if (!words) throw new Error(`wordsIn needs one of our languages, not ${language}`);
  return words;
}

/** The same for the domain, which cannot know the names' type; a test knows them. */
export function sayIn(language: Language): Say {
  const words = wordsIn(language) as unknown as (name: string, facts?: Readonly<Record<string, string | number>>) => string;
  return Object.assign((name: string, facts?: Readonly<Record<string, string | number>>) => words(name, facts), { language });
}

/**
 * Texts by their full names as they stand in the file, for `sayFrom` in the browser: only texts of one part, and only
 * such as have plain variables.
 *
 * Example: `textsOf("de", "field")["field.choose"]`.
 */
export function textsOf(language: Language, part: keyof Messages): Readonly<Record<string, string>> {
  return Object.fromEntries(flat(MESSAGES[language][part], part));
}

/** Every text below a node of a message file, with its full name. */
export function flat(node: unknown, name: string): [string, string][] {
  if (typeof node === "string") return [[name, node]];
  return Object.entries(node as Readonly<Record<string, unknown>>).flatMap(([key, inner]) => flat(inner, name ? `${name}.${key}` : key));
}

/** For the same fields on pages of staff. */
export const toStaff: Say = sayIn(FIRST_LANGUAGE);
