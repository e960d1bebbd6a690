import { type ClaimStage, QUEUE_STAGES } from "./stages";

/** What decides whether one of several claims can be acted on with the others. */
export interface ActedOn {
  stage: ClaimStage;
  assignedToId: string | null;
  wroteAt: Date | null;
  openChecks: number;
  hasMail: boolean;
}

export const NOT_DONE_REASONS = ["ended", "mine-already", "somebodys", "theirs-already", "nothing-to-answer", "no-open-check", "no-mail"] as const;
export type NotDoneReason = (typeof NOT_DONE_REASONS)[number];

/**
 * Why an act on several claims would pass one over, or null. Only claims in nobody's hand are taken in a batch: taking one
 * from a colleague is done on the claim itself, where the colleague is seen.
 */
export function whyNot(act: "take" | "hand_over" | "need_no_answer" | "remind", claim: ActedOn, { me, to }: { me: string; to: string | null }): NotDoneReason | null {
  const isOpen = QUEUE_STAGES.some((open) => open === claim.stage);
  switch (act) {
    case "take":
      if (!isOpen) return "ended";
      return claim.assignedToId === null ? null : claim.assignedToId === me ? "mine-already" : "somebodys";
    case "hand_over":
      if (!isOpen) return "ended";
      return claim.assignedToId === to ? "theirs-already" : null;
    case "need_no_answer":
      return claim.wroteAt ? null : "nothing-to-answer";
    case "remind":
      if (claim.stage !== "awaiting_checks" || claim.openChecks === 0) return "no-open-check";
      return claim.hasMail ? null : "no-mail";
  }
}
