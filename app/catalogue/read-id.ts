import { forbidden, notFound } from "next/navigation";
import { z } from "zod";

/** The id an address names, null for one to be added; whatever else it says is not there. */
export function idOf(said: string): string | null {
  if (said === "new") return null;
  return z.guid().safeParse(said).success ? said : notFound();
}

/** What an operation found; what it refused becomes its page. */
export function found<Result extends { ok: true } | { ok: false; reason: "not-allowed" | "not-found" }>(loaded: Result): Extract<Result, { ok: true }> {
  if (!loaded.ok) return loaded.reason === "not-allowed" ? forbidden() : notFound();
  // What is left of the union once it is ok.
  return loaded as Extract<Result, { ok: true }>;
}
