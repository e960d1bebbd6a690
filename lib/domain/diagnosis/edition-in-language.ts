import { FIRST_LANGUAGE, type Language } from "../claims/languages";
import type { Cause, Edition, FindingDefinition, Translation } from "./knowledge";

type Write = (name: string, text: string) => string;

function causeIn(cause: Cause, write: Write): Cause {
  const of = (part: "plainName" | "advice") => write(`causes.${cause.code}.${part}`, cause[part]);
  return { ...cause, plainName: of("plainName"), advice: of("advice") };
}

/** Tools are one text, as a list of words is one leaf. */
const TOOLS_APART = ", ";

/** The letter names what the bench has found; how to look there is staff's to read. What nobody observes is never shown. */
function findingIn<F extends FindingDefinition>(finding: F, write: Write): F {
  if (finding.observers.length === 0) return finding;
  const at = `findings.${finding.code}`;
  const of = (part: "name" | "question" | "why" | "how") => write(`${at}.${part}`, finding[part]);
  const told = { ...finding, name: of("name"), options: finding.options.map((option) => ({ ...option, label: write(`${at}.options.${option.value}.label`, option.label) })) };
  if (finding.observers.every((observer) => observer === "bench")) return told;
  const tools = finding.tools.length > 0 ? write(`${at}.tools`, finding.tools.join(TOOLS_APART)).split(TOOLS_APART) : [];
  return { ...told, question: of("question"), why: of("why"), how: of("how"), tools };
}

const written = (edition: Edition, write: Write): Edition => ({
  ...edition,
  causes: edition.causes.map((cause) => causeIn(cause, write)),
  findings: edition.findings.map((finding) => findingIn(finding, write)),
});

/**
 * What of an edition customers read, in English, by the names of `leavesOf`: all but what staff alone see.
 *
 * Example: `causes.C01.plainName` is there, `causes.C01.name` is not.
 */
export function customerTexts(edition: Edition): Map<string, string> {
  const texts = new Map<string, string>();
  written(edition, (name, text) => {
    texts.set(name, text);
    return text;
  });
  return texts;
}

/** How a text of an edition stands in a language: stale is a translation of what it said before. */
export type TranslationState = { state: "there"; text: string } | { state: "stale"; text: string; of: string } | { state: "missing" };

export function translationOf(name: string, english: string, translations: Readonly<Record<string, Translation>> | undefined): TranslationState {
  const kept = translations && Object.hasOwn(translations, name) ? translations[name] : undefined;
  if (!kept) return { state: "missing" };
  return kept.of === english ? { state: "there", text: kept.text } : { state: "stale", ...kept };
}

/** Made once for an edition and a language: what is worked out from it is then worked out once too. */
const made = new WeakMap<Edition, Map<Language, Edition>>();

/**
 * An edition as a customer of that language reads it. A text whose translation is missing or stale stays English: one
 * that says what the edition no longer says would be worse.
 *
 * Example: with F12's question reworded in edition 2, a German customer reads that one question in English.
 */
export function editionInLanguage(edition: Edition, language: Language): Edition {
  if (language === FIRST_LANGUAGE) return edition;
  const byLanguage = made.get(edition) ?? new Map<Language, Edition>();
  made.set(edition, byLanguage);
  const known = byLanguage.get(language);
  if (known) return known;
  const translated = written(edition, (name, text) => {
    const translation = translationOf(name, text, edition.translations[language]);
    return translation.state === "there" ? translation.text : text;
  });
  byLanguage.set(language, translated);
  return translated;
}
