import { LANGUAGE_NAMES, LANGUAGES, type Language } from "@/lib/domain/claims/languages";
import { chooseLanguage } from "./actions";

/** The other languages, each in its own words: a plain form at the head of every page for customers. */
export function LanguageSwitch({ language, label }: { language: Language; label: string }) {
  return (
    <form action={chooseLanguage} className="no-print" aria-label={label}>
      {LANGUAGES.filter((other) => other !== language).map((other) => (
        <button key={other} type="submit" name="language" value={other} lang={other} className="link-button">
          {LANGUAGE_NAMES[other]}
        </button>
      ))}
    </form>
  );
}
