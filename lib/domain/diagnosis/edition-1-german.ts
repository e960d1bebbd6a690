import { GERMAN_CAUSES } from "./edition-1-german-causes";
import { GERMAN_FINDINGS } from "./edition-1-german-findings";
import { customerTexts } from "./edition-in-language";
import type { Edition, Translation } from "./knowledge";

function named(): Map<string, string> {
  const texts = new Map<string, string>();
  for (const [code, cause] of Object.entries(GERMAN_CAUSES)) for (const [part, text] of Object.entries(cause)) texts.set(`causes.${code}.${part}`, text);
  for (const [code, { options = {}, ...finding }] of Object.entries(GERMAN_FINDINGS)) {
    for (const [part, text] of Object.entries(finding)) texts.set(`findings.${code}.${part}`, text);
    for (const [value, label] of Object.entries(options)) texts.set(`findings.${code}.options.${value}.label`, label);
  }
  return texts;
}

/**
 * What customers read of the first edition in German, with the English texts that it says.
 *
 * @throws when there is a text of nothing that the edition has
 */
export function germanOf(english: Edition): Record<string, Translation> {
  const texts = customerTexts(english);
  return Object.fromEntries(
    [...named()].map(([name, text]) => {
      const of = texts.get(name);
      if (of === undefined) throw new Error(`germanOf needs an English text of the name ${name}`);
      return [name, { of, text }];
    }),
  );
}
