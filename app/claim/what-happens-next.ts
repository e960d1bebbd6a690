import type { Remedy } from "@/lib/domain/claims/remedies";
import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Words } from "@/lib/messages/words";

/** What the customer's page knows of where a complaint stands. */
export interface Standing {
  /** When the first answer is promised, in words, and whether that time has passed; null once it is given. */
  answer: { by: string; isLate: boolean } | null;
  /** A letter stood, and the customer saw it otherwise. */
  isContested: boolean;
  hasChecks: boolean;
  openChecks: number;
  remedy: Remedy | null;
  /** The last day for the unit, in words, and where the unit is. */
  unit: { sendBy: string; place: "awaited" | "on_its_way" | "here" };
  mergedInto: string | null;
}

/** Where a complaint stands as a finding, then by when who does what. */
export interface WhatHappensNext {
  heading: string;
  byWhen: string | null;
  next: string;
}

export function whatHappensNext(stage: ClaimStage, standing: Standing, words: Words): WhatHappensNext {
  const { answer, unit, remedy, mergedInto } = standing;
  switch (stage) {
    case "draft":
    case "filed":
    case "in_review": {
      const place = stage === "in_review" ? (standing.isContested ? "contested" : stage) : "filed";
      return {
        heading: words(`claim.next.${place}.heading`),
        byWhen: answer ? words(`claim.next.answer.${answer.isLate ? "late" : "by"}`, { promisedBy: answer.by }) : words("claim.next.answer.open"),
        next: [...(place === "contested" ? [words("claim.next.contested.text")] : []), words("claim.next.nothingToDo"), ...(standing.hasChecks ? [words("claim.next.checks")] : [])].join(" "),
      };
    }
    case "awaiting_checks":
      return { heading: words("claim.next.awaiting_checks.heading", { count: standing.openChecks }), byWhen: null, next: words("claim.next.awaiting_checks.text") };
    case "awaiting_the_unit":
      return { heading: words(`claim.next.unit.${unit.place}.heading`, { sendBy: unit.sendBy }), byWhen: null, next: words(`claim.next.unit.${unit.place}.text`) };
    case "decided":
    case "settled":
      return { heading: words(`claim.next.${stage}.heading.${remedy ?? "advice"}`), byWhen: null, next: words(`claim.next.${stage}.text`) };
    case "merged":
      return { heading: words("claim.next.merged.heading"), byWhen: null, next: mergedInto ? words("claim.next.merged.own", { reference: mergedInto }) : words("claim.next.merged.others") };
    case "cleared":
    case "withdrawn":
    case "lapsed":
      return { heading: words(`claim.next.${stage}.heading`), byWhen: null, next: words(`claim.next.${stage}.text`) };
  }
}
