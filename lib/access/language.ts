import "server-only";
import { cookies, headers } from "next/headers";
import { cache } from "react";
import { FIRST_LANGUAGE, LANGUAGES, type Language, preferredLanguage } from "@/lib/domain/claims/languages";
import { env } from "@/lib/env";
import { type Words, wordsIn } from "@/lib/messages/words";
import { customerHere } from "./customer";

const LANGUAGE_COOKIE = "fit-or-fault.language";
const COOKIE_DAYS = 365;

/** Set by `proxy.ts`: the path of the page, which a layout is not told. */
const PATH_HEADER = "x-page-path";

/** Whether the page is one that customers read; all others are staff's, and in English. */
export async function isCustomerPage(): Promise<boolean> {
  return /^\/(?:$|(?:intake|claim)(?:\/|$))/.test((await headers()).get(PATH_HEADER) ?? "/");
}

/**
 * The language of this request: that of the claim or draft that the page is about, else the one chosen in this browser,
 * else the first of the browser's list that we have. Pages of staff are English.
 */
export const currentLanguage = cache(async (): Promise<Language> => {
  if (!(await isCustomerPage())) return FIRST_LANGUAGE;
  return (await customerHere())?.language ?? chosenLanguage();
});

/** The texts of this request, for pages: `const words = await currentWords()`. */
export async function currentWords(): Promise<Words> {
  return wordsIn(await currentLanguage());
}

async function chosenLanguage(): Promise<Language> {
  const chosen = (await cookies()).get(LANGUAGE_COOKIE)?.value;
  return LANGUAGES.find((language) => language === chosen) ?? preferredLanguage((await headers()).get("accept-language") ?? "");
}

/** Remembers the choice in this browser. */
export async function keepLanguage(language: Language): Promise<void> {
  (await cookies()).set(LANGUAGE_COOKIE, language, { httpOnly: true, sameSite: "lax", secure: env.APP_ORIGIN.startsWith("https:"), path: "/", maxAge: COOKIE_DAYS * 86_400 });
}
