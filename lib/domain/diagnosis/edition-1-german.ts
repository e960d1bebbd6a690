import { customerTexts } from "./edition-in-language";
import type { Edition, Translation } from "./knowledge";

/** What customers read of the first edition, in German, by the names of the English texts. */
const GERMAN: Readonly<Record<string, string>> = {};

/** The German texts with the English ones that they say. */
export function germanOf(english: Edition): Record<string, Translation> {
  return Object.fromEntries([...customerTexts(english)].flatMap(([name, of]) => (GERMAN[name] === undefined ? [] : [[name, { of, text: GERMAN[name] }]])));
}
