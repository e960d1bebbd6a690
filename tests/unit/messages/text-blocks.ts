import type { Language } from "@/lib/domain/claims/languages";
import { edition1 } from "@/lib/domain/diagnosis/edition-1";
import { customerTexts, editionInLanguage } from "@/lib/domain/diagnosis/edition-in-language";
import { flat, MESSAGES } from "@/lib/messages/words";
import { wordCount } from "./reading-age";

/** A label is no sentence, and a formula made for prose says nothing of it. */
const LEAST_WORDS_OF_A_SENTENCE = 5;
/** Below this, one long word decides what the formula says. */
const LEAST_WORDS_OF_A_BLOCK = 40;

/** Variables as a short word, both sides of a plural one after the other, no tags. */
const asRead = (text: string) =>
  text
    .replace(/\{\w+, plural,((?:[^{}]|\{[^{}]*\})*)\}/g, (_, sides: string) => [...sides.matchAll(/\{([^{}]*)\}/g)].map(([, side]) => side).join(". "))
    .replace(/\{\w+\}/g, "it")
    .replace(/<[^>]+>/g, "")
    .replaceAll("#", "2");

/** Joins texts as sentences, one after another. */
const joined = (texts: readonly string[]) => texts.map((text) => (/[.!?:]$/.test(text) ? text : `${text}.`)).join(" ");

/**
 * What customers read, in blocks long enough for a formula: the texts that stand together in a message file, and each
 * cause and finding of the first edition. What is too short by itself goes to the block before.
 */
export function textBlocks(language: Language): Map<string, string> {
  const sentences = [
    ...flat(MESSAGES[language], "").map(([name, text]) => [name, asRead(text)] as const),
    ...customerTexts(editionInLanguage(edition1, language)),
  ].filter(([, text]) => wordCount(text) >= LEAST_WORDS_OF_A_SENTENCE);
  const together = new Map<string, string[]>();
  for (const [name, text] of sentences) {
    const group = name.split(".").slice(0, 2).join(".");
    together.set(group, [...(together.get(group) ?? []), text]);
  }
  const blocks = new Map<string, string>();
  let waiting: { name: string; text: string } | null = null;
  for (const [group, texts] of together) {
    const text: string = joined([...(waiting ? [waiting.text] : []), ...texts]);
    const name: string = waiting ? `${waiting.name}, ${group}` : group;
    waiting = wordCount(text) < LEAST_WORDS_OF_A_BLOCK ? { name, text } : null;
    if (!waiting) blocks.set(name, text);
  }
  return blocks;
}
