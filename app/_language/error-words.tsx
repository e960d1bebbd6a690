"use client";

import { createContext, type ReactNode, useContext } from "react";

/** The texts of the page for what went wrong: it is drawn in the browser, where no message file is. */
export interface ErrorWords {
  heading: string;
  /** Before the code. */
  text: string;
  again: string;
}

const Words = createContext<ErrorWords | null>(null);

export function ErrorWordsProvider({ words, children }: { words: ErrorWords; children: ReactNode }) {
  return <Words value={words}>{children}</Words>;
}

export function useErrorWords(): ErrorWords {
  const words = useContext(Words);
  if (!words) throw new Error("useErrorWords needs the ErrorWordsProvider of the root layout");
  return words;
}
