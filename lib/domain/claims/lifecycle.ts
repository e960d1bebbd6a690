import type { ClaimStage } from "./stages";

/** A named act that moves a claim. The actor and the time are kept in the audit entry of the same transaction. */
export const CLAIM_EVENTS = [
  "file",
  "take_up",
  "ask_for_check",
  "answer_checks",
  "answer_late",
  "authorise_return",
  "inspect_unit",
  "return_expired",
  "unit_after_all",
  "decide",
  "settle",
  "appeal",
  "clear",
  "withdraw",
  "lapse",
  "merge",
  "take_apart",
] as const;
export type ClaimEvent = (typeof CLAIM_EVENTS)[number];

const OPEN = ["filed", "in_review", "awaiting_checks", "awaiting_the_unit"] as const satisfies readonly ClaimStage[];

/** Every legal move: the stages an event may start from, and where it leads. */
const MOVES: Readonly<Record<ClaimEvent, { from: readonly ClaimStage[]; to: ClaimStage }>> = {
  file: { from: ["draft"], to: "filed" },
  take_up: { from: ["filed"], to: "in_review" },
  ask_for_check: { from: ["filed", "in_review", "awaiting_checks"], to: "awaiting_checks" },
  answer_checks: { from: ["awaiting_checks"], to: "in_review" },
  // Whoever answers after all is welcome: the same claim, with all that it holds, goes on.
  answer_late: { from: ["lapsed"], to: "in_review" },
  authorise_return: { from: ["filed", "in_review", "awaiting_checks"], to: "awaiting_the_unit" },
  inspect_unit: { from: ["awaiting_the_unit"], to: "in_review" },
  return_expired: { from: ["awaiting_the_unit"], to: "in_review" },
  // It set out or came though its return had run out.
  unit_after_all: { from: ["filed", "in_review", "awaiting_checks"], to: "awaiting_the_unit" },
  decide: { from: OPEN, to: "decided" },
  settle: { from: ["decided"], to: "settled" },
  appeal: { from: ["decided", "settled"], to: "in_review" },
  clear: { from: OPEN, to: "cleared" },
  withdraw: { from: OPEN, to: "withdrawn" },
  lapse: { from: ["awaiting_checks", "awaiting_the_unit"], to: "lapsed" },
  merge: { from: OPEN, to: "merged" },
  // Two complaints that were held to be the same, and are not.
  take_apart: { from: ["merged"], to: "in_review" },
};

export type Transition =
  | { ok: true; stage: ClaimStage }
  | { ok: false; reason: "not-legal-here"; event: ClaimEvent; stage: ClaimStage };

/**
 * The stage after an event, or a refusal.
 *
 * @example transition("filed", "decide") // { ok: true, stage: "decided" }
 * @example transition("settled", "decide") // { ok: false, reason: "not-legal-here", ... }
 */
export function transition(stage: ClaimStage, event: ClaimEvent): Transition {
  const move = MOVES[event];
  return move.from.includes(stage) ? { ok: true, stage: move.to } : { ok: false, reason: "not-legal-here", event, stage };
}

/** The stages an event may start from, for guarding the update in the database too. */
export function stagesBefore(event: ClaimEvent): readonly ClaimStage[] {
  return MOVES[event].from;
}
