import { claimNetwork } from "./claim-network";
import { stepOf } from "./evidence-step";
import type { ClaimContext } from "./experience";
import { logEvidenceOf } from "./infer-causes";
import type { Edition } from "./knowledge";
import type { Observation } from "./observation";
import type { EvidenceStep } from "./ranking";
import { type StandingObservation, standingObservations } from "./standing-observations";

/** Findings that cannot all be as they were told. */
export interface Contradiction {
  /** Each of these makes the rest possible when it is left out: look at them again. */
  anyOf: readonly EvidenceStep[];
  /** Findings that cannot be true together, none of which could be left out of this list. */
  together: readonly EvidenceStep[];
}

/**
 * Contradiction: which findings make the evidence impossible. Null where it is possible.
 *
 * `together` is found by leaving out one finding after the other for good, as long as the rest stays impossible
 * (deletion, as for a minimal unsatisfiable core; from memory). Where several such groups are independent of each other
 * no single finding makes the rest possible, and `anyOf` is empty.
 *
 * Example: a site that shows every such cause, looked at and dry, and a sign that only this cause gives, seen: both are
 * named, in either list.
 */
export function contradictionIn(observations: readonly Observation[], edition: Edition, context: ClaimContext): Contradiction | null {
  const isPossible = (counted: readonly StandingObservation[]) => {
    const { network, evidence } = claimNetwork(counted, edition, context);
    return Number.isFinite(logEvidenceOf(network, evidence));
  };
  const { counted } = standingObservations(observations, edition);
  if (isPossible(counted)) return null;
  const found = counted.filter(({ kind }) => kind === "evidence");
  const without = (all: readonly StandingObservation[], one: StandingObservation) => all.filter((other) => other !== one);
  let core = counted;
  for (const one of found) {
    const fewer = without(core, one);
    if (!isPossible(fewer)) core = fewer;
  }
  return {
    anyOf: found.filter((one) => isPossible(without(counted, one))).map(stepOf),
    together: core.filter(({ kind }) => kind === "evidence").map(stepOf),
  };
}
