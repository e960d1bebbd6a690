import type { Attribution } from "../diagnosis/attributions";

/** What becomes of a unit that came in. */
export const DISPOSITIONS = ["returned_to_customer", "restocked", "repaired", "scrapped", "held_as_evidence", "sent_to_supplier"] as const;
export type DispositionKind = (typeof DISPOSITIONS)[number];

export const DISPOSITION_NAMES: Readonly<Record<DispositionKind, string>> = {
  returned_to_customer: "returned to the customer",
  restocked: "restocked as sound",
  repaired: "repaired",
  scrapped: "scrapped",
  held_as_evidence: "held as evidence",
  sent_to_supplier: "sent to the supplier",
};

/** The unit is no longer here to decide about. */
const AWAY: readonly DispositionKind[] = ["returned_to_customer", "restocked", "scrapped"];

/** Why a disposition does not stand by itself. */
export const DISPOSITION_DOUBTS = ["not-inspected", "found-defective", "evidence-kept", "gone-already"] as const;
export type DispositionDoubt = (typeof DISPOSITION_DOUBTS)[number];

export interface UnitToDispose {
  isInspected: boolean;
  /** Of the claim's verdict that stands. */
  attribution: Attribution | null;
  /** What was decided before, if anything, and until when it was to be kept as evidence (`2026-03-31`). */
  standing: { kind: DispositionKind; keepUntil: string | null } | null;
}

/**
 * What speaks against a disposition, so that it needs a reason: a unit that nobody inspected, one found defective that
 * would go back on the shelf, evidence whose day has not come, and a unit that has left already.
 *
 * Source: common practice. Example: scrapping on 1 March what is to be kept until 31 March is doubted as `evidence-kept`.
 *
 * @param today as `2026-03-01`
 */
export function dispositionDoubts(kind: DispositionKind, { isInspected, attribution, standing }: UnitToDispose, today: string): DispositionDoubt[] {
  const isKept = standing?.keepUntil != null && today <= standing.keepUntil && kind !== "held_as_evidence";
  const speaks: Readonly<Record<DispositionDoubt, boolean>> = {
    "not-inspected": !isInspected,
    "found-defective": kind === "restocked" && attribution === "unit" && standing?.kind !== "repaired",
    "evidence-kept": isKept,
    "gone-already": standing !== null && AWAY.includes(standing.kind),
  };
  return DISPOSITION_DOUBTS.filter((doubt) => speaks[doubt]);
}
