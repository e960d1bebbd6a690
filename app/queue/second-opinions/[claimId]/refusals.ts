import type { GiveSecondOpinionResult } from "@/lib/operations/give-second-opinion";

/** What stands against a second opinion, as a sentence. */
export function notAskedInWords(refusal: Extract<GiveSecondOpinionResult, { ok: false }>): string {
  switch (refusal.reason) {
    case "given-already":
      return `${refusal.by} gave the second opinion on this claim already. Nothing of theirs was changed`;
    case "decided-by-you":
      return "You have decided this claim yourself: the second opinion is another person\u2019s";
    case "not-asked":
      return "This claim is not in the sample, its verdict no longer stands, or it was decided too long ago";
    case "unknown-cause":
      return "The knowledge has no such cause";
    case "not-found":
      return "There is no such claim";
    case "not-allowed":
      return "Your role does not include this";
  }
}
