import { claimNetwork } from "./claim-network";
import type { ClaimContext } from "./experience";
import { inferCauses, logEvidenceOf } from "./infer-causes";
import type { Edition } from "./knowledge";
import type { Observation } from "./observation";
import type { Belief, LedBelief } from "./stakes";
import { standingObservations } from "./standing-observations";

/** Places of the causes that are defects of the unit. */
export function unitCausesOf(edition: Edition): ReadonlySet<number> {
  return new Set(edition.causes.flatMap(({ attribution }, place) => (attribution === "unit" ? [place] : [])));
}

/** The belief in a set of probabilities, the causes in the edition's order. */
export function beliefIn({ unitDefective, causes }: { unitDefective: number; causes: readonly number[] }, edition: Edition): LedBelief {
  let leader: Belief["leader"] = null;
  edition.causes.forEach(({ code, attribution }, place) => {
    const probability = causes[place] ?? 0;
    if (attribution !== "unit" && probability > (leader?.probability ?? 0)) leader = { cause: code, probability };
  });
  const likeliest = edition.causes[causes.indexOf(Math.max(...causes))]?.code ?? null;
  return { unitDefective, leader, likeliest };
}

/** What is believed of a claim as it stands; null where what was found cannot happen. */
export function beliefAfter(observations: readonly Observation[], edition: Edition, context: ClaimContext): Belief | null {
  const { network, evidence } = claimNetwork(standingObservations(observations, edition).counted, edition, context);
  const posterior = inferCauses(network, evidence);
  if (posterior.outcome === "contradiction") return null;
  const logUnitSound = logEvidenceOf(network, evidence, unitCausesOf(edition));
  return beliefIn({ unitDefective: 1 - Math.min(1, Math.exp(logUnitSound - posterior.logEvidence)), causes: posterior.present }, edition);
}
