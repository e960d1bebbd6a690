import type { Language } from "@/lib/domain/claims/languages";

/** How dates and numbers are written. */
export const LOCALES: Readonly<Record<Language, string>> = { en: "en-GB", de: "de-DE" };

/** A day with its weekday: "Friday 27 March 2026", "Freitag, 27. März 2026". */
export function dayInWords(day: Date | number, language: Language, timeZone: string): string {
  return new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "full", timeZone }).format(day);
}

/** A calendar day in short, kept as its midnight in UTC: "27 Mar 2026", "27.03.2026". */
export function dayInShort(day: Date, language: Language): string {
  return new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "medium", timeZone: "UTC" }).format(day);
}

/** A moment by which something is promised: the day with its weekday, and the time. */
export function dayAndTimeInWords(moment: Date, language: Language, timeZone: string): string {
  return new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "full", timeStyle: "short", timeZone }).format(moment);
}

/** A moment in short: "27 Mar 2026, 14:05", "27.03.2026, 14:05". */
export function momentInWords(moment: Date, language: Language, timeZone: string): string {
  return new Intl.DateTimeFormat(LOCALES[language], { dateStyle: "medium", timeStyle: "short", timeZone }).format(moment);
}
