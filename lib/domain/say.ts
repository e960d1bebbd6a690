import { FIRST_LANGUAGE, type Language } from "./claims/languages";

export type Fact = string | number;

/**
 * Says a text in the customer's language by its name in the message files. The domain knows the name and the facts that
 * fill it, never the words; `tests/unit/messages` holds every name it uses against the files.
 */
export interface Say {
  (name: string, facts?: Readonly<Record<string, Fact>>): string;
  readonly language: Language;
}

/**
 * Texts whose only variables are plain `{names}`, said without a library: for what the browser checks as well.
 *
 * Example: of `{ "field.long": "At most {most} signs" }`, `field.long` with most 60 is "At most 60 signs".
 *
 * @throws when there is no text of that name, or a fact is missing
 */
export function sayFrom(texts: Readonly<Record<string, string>>, language: Language): Say {
  const say = (name: string, facts: Readonly<Record<string, Fact>> = {}): string => {
    const text = texts[name];
    if (text === undefined) throw new Error(`sayFrom needs a text of the name ${name}`);
    return text.replace(/\{(\w+)\}/g, (_, fact: string) => {
      const value = facts[fact];
      if (value === undefined) throw new Error(`sayFrom needs the fact ${fact} for ${name}`);
      return typeof value === "number" ? inFigures(value, language) : value;
    });
  };
  return Object.assign(say, { language });
}

/** Says nothing: for what is read and not shown. */
export const WITHOUT_WORDS: Say = Object.assign(() => "", { language: FIRST_LANGUAGE });

/** A number as it is written in that language, three figures at most unless fewer are given: 0.0125 is "0,0125" in German. */
export function inFigures(value: number, language: Language, figures = 3): string {
  return new Intl.NumberFormat(language, { maximumSignificantDigits: figures, useGrouping: false }).format(value);
}
