import type { ClaimStage } from "@/lib/domain/claims/stages";
import type { Words } from "@/lib/messages/words";

/** The stage as a finding, and what follows from it, for the customer. */
export function whatHappensNext(stage: ClaimStage, facts: { promisedBy: string; openChecks: number; mergedInto: string | null; isUnitHere: boolean }, words: Words): { heading: string; next: string } {
  switch (stage) {
    case "draft":
    case "filed":
      return { heading: words("claim.next.filed.heading"), next: words("claim.next.filed.text", { promisedBy: facts.promisedBy }) };
    case "awaiting_checks":
      return { heading: words("claim.next.awaiting_checks.heading", { count: facts.openChecks }), next: words("claim.next.awaiting_checks.text") };
    case "awaiting_the_unit": {
      const place = facts.isUnitHere ? "unit_here" : stage;
      return { heading: words(`claim.next.${place}.heading`), next: words(`claim.next.${place}.text`) };
    }
    case "merged":
      return { heading: words("claim.next.merged.heading"), next: facts.mergedInto ? words("claim.next.merged.own", { reference: facts.mergedInto }) : words("claim.next.merged.others") };
    case "in_review":
    case "decided":
    case "settled":
    case "cleared":
    case "withdrawn":
    case "lapsed":
      return { heading: words(`claim.next.${stage}.heading`), next: words(`claim.next.${stage}.text`) };
  }
}
