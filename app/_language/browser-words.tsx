"use client";

import { createContext, type ReactNode, useContext, useMemo } from "react";
import type { Language } from "@/lib/domain/claims/languages";
import { type Say, sayFrom } from "@/lib/domain/say";

const Words = createContext<Say | null>(null);

/**
 * Hands the browser the few texts that its forms say by themselves: what is wrong with an answer, that the signal was lost.
 * All others come as props of the components that say them, rendered on the server.
 *
 * @param texts the part `browser` of the message file, from `textsOf`
 */
export function BrowserWords({ texts, language, children }: { texts: Readonly<Record<string, string>>; language: Language; children: ReactNode }) {
  const say = useMemo(() => sayFrom(texts, language), [texts, language]);
  return <Words value={say}>{children}</Words>;
}

/** Says a text of the part `browser`: `say("browser.back")`. */
export function useSay(): Say {
  const say = useContext(Words);
  if (!say) throw new Error("useSay needs the BrowserWords of the root layout");
  return say;
}
