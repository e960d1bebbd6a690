import { STAGE_NAMES, type ClaimStage } from "@/lib/domain/claims/stages";

/** One place that turns what stands against an act on a claim into a sentence. */
export function refusalInWords(refusal: { reason: string; stage?: ClaimStage }): string {
  const words: Readonly<Record<string, string>> = {
    "not-allowed": "Your role does not include this",
    "not-found": "There is no such claim",
    "unknown-person": "There is no such person at the desk",
    "taken-meanwhile": "Somebody else took it meanwhile. Load the page again to see who",
    "unknown-check": "The knowledge has no such check",
    "not-for-this-customer": "This takes a technician: whoever filed the claim cannot be asked for it",
    "asked-already": "This is asked for already and waits for an answer",
    "not-open": "It was answered or taken back meanwhile",
    "changed-meanwhile": "Somebody changed the claim meanwhile. Load the page again",
    "ranked-meanwhile": "Something new was found meanwhile and the ranking has moved. What you typed is kept: look at the claim again, then load this page anew",
    "not-legal-here": `This cannot be done to a claim that is ${refusal.stage ? STAGE_NAMES[refusal.stage] : "where this one is"}`,
    "unknown-finding": "The knowledge has no such finding",
    "not-for-this-observer": "Only the bench can find this: use the bench inspection",
    "unknown-answer": "Choose one of the answers",
    "impossible-number": "This number is outside what is possible",
    "needs-a-number": "Write a number",
    "needs-an-answer": "Choose one of the answers",
  };
  return words[refusal.reason] ?? "This could not be done";
}
