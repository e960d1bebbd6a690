import type { SerialMatch } from "@/lib/domain/claims/serials";

export const SERIAL_WORDS: Readonly<Record<SerialMatch, string>> = {
  matches: "the serial of the claim",
  differs: "Not the serial of the claim",
  "nothing-to-compare": "no serial to compare",
};

/** `25 November 2026` on the seller's calendar. */
export function dayIn(timeZone: string, at: Date): string {
  return new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone }).format(at);
}
