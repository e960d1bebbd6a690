import { type ClaimContext, NO_CONTEXT } from "./experience";
import type { FindingCode } from "./knowledge";
import type { EvidenceWeight, Ranked, RankedCause, Ranking } from "./ranking";

/** A ranking as it may lie in the store: of today, or as rankings were kept before the evidence stood there once for all causes. */
export type KeptRankingForm = Ranking | EarlierRanked | EarlierContradiction;

type EarlierRanked = Omit<Ranked, "context" | "steps" | "setAside" | "causes"> & {
  context?: ClaimContext;
  setAside: readonly FindingCode[];
  /** Every cause carried the whole evidence, what was set aside with a weight of 0 at the end. */
  causes: readonly (Omit<RankedCause, "weights"> & { evidence: readonly EvidenceWeight[] })[];
};

type EarlierContradiction = Omit<Extract<Ranking, { outcome: "contradiction" }>, "context"> & { context?: ClaimContext };

/**
 * A kept ranking in the form of today; no figure of it changes. What it was made for was not kept at first: then it was
 * made without experience of kits.
 *
 * Example: 23 causes with 8 pieces of evidence each become 8 steps and 23 lists of 8 weights.
 */
export function rankingAsKept(kept: KeptRankingForm): Ranking {
  const context = kept.context ?? NO_CONTEXT;
  if (kept.outcome === "contradiction" || "steps" in kept) return { ...kept, context };
  const isCounted = ({ finding }: EvidenceWeight) => !kept.setAside.includes(finding);
  const steps = (kept.causes[0]?.evidence ?? []).map(({ weight: _, ...step }) => step);
  return {
    ...kept,
    context,
    steps: steps.filter(({ finding }) => !kept.setAside.includes(finding)),
    setAside: steps.filter(({ finding }) => kept.setAside.includes(finding)),
    causes: kept.causes.map(({ evidence, ...cause }) => ({ ...cause, weights: evidence.filter(isCounted).map(({ weight }) => weight) })),
  };
}
