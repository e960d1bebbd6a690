import type { ClaimStage } from "@/lib/domain/claims/stages";

/** The stage as a finding, and what follows from it, for the customer. */
export function whatHappensNext(stage: ClaimStage, facts: { promisedBy: string; openChecks: number; mergedInto: string | null; isUnitHere: boolean }): { heading: string; next: string } {
  switch (stage) {
    case "draft":
    case "filed":
      return { heading: "We have your complaint", next: `Somebody looks at it and writes to you by ${facts.promisedBy}. Until then the checks below cost nothing and may settle it.` };
    case "in_review":
      return { heading: "Somebody is looking at it", next: "We write to you when it is decided, or when we need to ask. There is nothing you must do." };
    case "awaiting_checks":
      return {
        heading: facts.openChecks === 1 ? "We need one answer from you" : `We need ${facts.openChecks} answers from you`,
        next: "Answer below when you have looked. \u201cI can\u2019t tell\u201d is an answer too. We go on as soon as the last one is in.",
      };
    case "awaiting_the_unit":
      return facts.isUnitHere
        ? { heading: "The unit is with us", next: "We look at it on our bench and write to you when it is decided. There is nothing you must do." }
        : { heading: "We are waiting for the unit", next: "How to send it stands below. We go on as soon as it is here." };
    case "decided":
      return { heading: "It is decided", next: "Our letter below says what we found, why, and what we do about it. If you see it otherwise, say so and why below the letter: we then look at it again." };
    case "settled":
      return { heading: "It is decided and settled", next: "Our letter is below. If you see it otherwise, say so and why below the letter: we then look at it again." };
    case "cleared":
      return { heading: "It is put right", next: "You told us that a check put it right. If the oil comes back, start another complaint and give this reference." };
    case "withdrawn":
      return { heading: "You took it back", next: "Nothing more happens. If you need us again, start another complaint." };
    case "lapsed":
      return { heading: "It is closed for want of an answer", next: "We asked and heard nothing. Write to us below if it is still open for you." };
    case "merged":
      return {
        heading: "It is the same as another complaint",
        next: facts.mergedInto
          ? `We go on under ${facts.mergedInto}. Everything you sent is kept there.`
          : "Somebody else has written to us about the same unit, and we look at both together. Everything you sent counts there. If you want to know how it stands, write to us below: we answer you here.",
      };
  }
}
