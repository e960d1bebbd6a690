/** Where an edition comes from: with the program, typed by a person, or proposed from confirmed verdicts. */
export const EDITION_ORIGINS = ["shipped", "by_hand", "learned"] as const;
export type EditionOrigin = (typeof EDITION_ORIGINS)[number];

/** How an edition is tried on what is stored before somebody decides about it. */
export const TRIAL_KINDS = ["dry_run", "backtest"] as const;
export type TrialKind = (typeof TRIAL_KINDS)[number];

export type EditionState = "proposed" | "discarded" | "in force" | "superseded";

/**
 * State of an edition: of those promoted the last is in force, the others are superseded.
 *
 * Example: promoted in March, and another one in May: superseded.
 */
export function editionState(edition: { number: number; promotedAt: Date | null; discardedAt: Date | null }, inForce: number): EditionState {
  if (edition.discardedAt) return "discarded";
  if (!edition.promotedAt) return "proposed";
  return edition.number === inForce ? "in force" : "superseded";
}

/** What the audit trail tells of an edition. */
export const EDITION_ACTS = ["propose_edition", "promote_edition", "discard_edition", "ask_for_dry_run"] as const;
export type EditionAct = (typeof EDITION_ACTS)[number];
