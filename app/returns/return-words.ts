import type { PlayReading } from "@/lib/domain/claims/play-readings";

/** What is wrong with a unit that came in under another serial; who may not read free text is not told which. */
export function otherSerialInWords({ serialSeen, serialExpected }: { serialSeen: string | null; serialExpected: string | null }): string {
  return `The unit that came in has another serial${serialSeen ? `: ${serialSeen} instead of ${serialExpected}` : ""}`;
}

export const STANDING_WORDS: Readonly<Record<PlayReading["standing"], string>> = { within: "within the limit of this model", over: "over the limit of this model", under: "tighter than a sound one of this model" };

/** `25 November 2026` on the seller's calendar. */
export function dayIn(timeZone: string, at: Date): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone }).format(at);
}
