import type { Language } from "@/lib/domain/claims/languages";
import { HIT_END, HIT_START } from "@/lib/domain/claims/search-marks";

/** A piece of text with what was looked for marked in it. */
export function Excerpt({ words, language }: { words: string; language: Language | undefined }) {
  const [before = "", ...rest] = words.split(HIT_START);
  return (
    <span lang={language}>
      {before}
      {rest.map((piece, index) => {
        const [hit = "", after = ""] = piece.split(HIT_END);
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: pieces of one text never change places
          <span key={index}>
            <mark>{hit}</mark>
            {after}
          </span>
        );
      })}
    </span>
  );
}
