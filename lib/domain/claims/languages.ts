/** Languages a customer is written to in. Staff read English. */
export const LANGUAGES = ["en", "de"] as const;
export type Language = (typeof LANGUAGES)[number];

/** Each in its own words, as the switch shows them. */
export const LANGUAGE_NAMES: Readonly<Record<Language, string>> = { en: "English", de: "Deutsch" };

/** The language of staff, of what is kept for them, and of whoever asks for none of ours. */
export const FIRST_LANGUAGE: Language = "en";

/**
 * The first of our languages in a browser's list of them; English when it lists none.
 *
 * Example: "fr-CH, de-AT;q=0.8, en;q=0.5" is German.
 *
 * @param accepted an Accept-Language header (RFC 9110, 12.5.4, from memory)
 */
export function preferredLanguage(accepted: string): Language {
  const wanted = accepted
    .split(",")
    .map((part) => {
      const [tag = "", ...parameters] = part.trim().toLowerCase().split(";");
      const weight = parameters.map((parameter) => /^\s*q=([\d.]+)\s*$/.exec(parameter)?.[1]).find((found) => found !== undefined);
      return { language: tag.split("-")[0], weight: weight === undefined ? 1 : Number(weight) };
    })
    .filter(({ weight }) => weight > 0)
    .sort((one, other) => other.weight - one.weight);
  for (const { language } of wanted) {
    const known = LANGUAGES.find((ours) => ours === language);
    if (known) return known;
  }
  return FIRST_LANGUAGE;
}
