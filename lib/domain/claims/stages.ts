/** Where a claim stands. Changed only by an event of `lifecycle.ts`. */
export const CLAIM_STAGES = [
  "draft",
  "filed",
  "in_review",
  "awaiting_checks",
  "awaiting_the_unit",
  "decided",
  "settled",
  "cleared",
  "withdrawn",
  "lapsed",
  "merged",
] as const;
export type ClaimStage = (typeof CLAIM_STAGES)[number];

/** The words people read. */
export const STAGE_NAMES: Readonly<Record<ClaimStage, string>> = {
  draft: "draft",
  filed: "filed",
  in_review: "in review",
  awaiting_checks: "awaiting checks",
  awaiting_the_unit: "awaiting the unit",
  decided: "decided",
  settled: "settled",
  cleared: "cleared",
  withdrawn: "withdrawn",
  lapsed: "lapsed",
  merged: "merged",
};

/** Stages in which staff still have something to do: the queue. */
export const QUEUE_STAGES = ["filed", "in_review", "awaiting_checks", "awaiting_the_unit"] as const satisfies readonly ClaimStage[];

/** The journey of a unit sent in. */
export const RETURN_STATES = ["authorised", "in_carriage", "received", "on_the_bench", "dispositioned", "expired"] as const;
export type ReturnState = (typeof RETURN_STATES)[number];

export const RETURN_STATE_NAMES: Readonly<Record<ReturnState, string>> = {
  authorised: "authorised",
  in_carriage: "in carriage",
  received: "received",
  on_the_bench: "on the bench",
  dispositioned: "dispositioned",
  expired: "expired",
};
