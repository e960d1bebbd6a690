import { claimNetwork } from "../diagnosis/claim-network";
import type { ClaimContext } from "../diagnosis/experience";
import { fittingObservations } from "../diagnosis/fitting-observations";
import { inferCauses, logEvidenceOf } from "../diagnosis/infer-causes";
import type { Edition } from "../diagnosis/knowledge";
import type { Observation } from "../diagnosis/observation";
import { standingObservations } from "../diagnosis/standing-observations";

/** What an edition says of one claim, without the reasons. */
export interface Forecast {
  /** Of each cause, in the edition's order. */
  probabilities: readonly number[];
  unitDefective: number;
}

/**
 * The probabilities of `rankCauses` alone, which is all that scoring asks for and a tenth of the work. Where the evidence
 * cannot happen under the edition it says nothing: its base figures stand. Findings the edition does not know are passed
 * over.
 */
export function forecast(observations: readonly Observation[], edition: Edition, context: ClaimContext): Forecast {
  const known = fittingObservations(observations, edition);
  const { network, evidence } = claimNetwork(standingObservations(known, edition).counted, edition, context);
  const posterior = inferCauses(network, evidence);
  const ofTheUnit = new Set(edition.causes.flatMap(({ attribution }, place) => (attribution === "unit" ? [place] : [])));
  if (posterior.outcome === "contradiction") {
    const sound = edition.causes.reduce((product, { base }, place) => (ofTheUnit.has(place) ? product * (1 - base.value) : product), 1);
    return { probabilities: edition.causes.map(({ base }) => base.value), unitDefective: 1 - sound };
  }
  const withoutUnit = logEvidenceOf(network, evidence, ofTheUnit) - posterior.logEvidence;
  return { probabilities: posterior.present, unitDefective: Math.min(1, Math.max(0, -Math.expm1(withoutUnit))) };
}
