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
    "not-waiting": "Somebody approved it, sent it back or took it back meanwhile. Load the page again",
    "own-verdict": "You proposed this verdict: somebody else looks at it",
    "ranked-since": "Something new was found since it was proposed. Send it back, so that it is decided anew",
    "decided-before": "You gave the verdict that was taken back: somebody else answers the objection, or an administrator",
    "not-legal-here": `This cannot be done to a claim that is ${refusal.stage ? STAGE_NAMES[refusal.stage] : "where this one is"}`,
    "no-such-reference": "No claim has this reference. Look at its page, or search for it",
    "same-claim": "That is this claim itself",
    "unit-on-its-way": "A unit is on its way to us for this claim, or here. Merge the other claim into this one instead",
    "money-booked": "Money is booked for this claim. Merge the other claim into this one instead, or reverse the bookings first",
    "other-has-ended": `The other claim is ${refusal.stage ? STAGE_NAMES[refusal.stage] : "closed"}: nothing more is decided there. Go on with this one, and link them`,
    "decided-together": "The other claim has been decided since, by what both hold. They can no longer be taken apart: take the verdict back into review if it was wrong",
    "somebody-elses": "Somebody else put this mark here: they or an administrator can take it away",
    "unknown-finding": "The knowledge has no such finding",
    "not-for-this-observer": "Only the bench can find this: use the bench inspection",
    "unknown-answer": "Choose one of the answers",
    "impossible-number": "This number is outside what is possible",
    "needs-a-number": "Write a number",
    "needs-an-answer": "Choose one of the answers",
  };
  return words[refusal.reason] ?? "This could not be done";
}
