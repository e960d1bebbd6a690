import { claimNetwork } from "./claim-network";
import type { ClaimContext } from "./experience";
import { inferUnder, logEvidenceUnder, type PreparedEvidence, prepareEvidence, withoutCauses } from "./infer-causes";
import type { Edition } from "./knowledge";
import type { Observation } from "./observation";
import type { CauseWeights } from "./split-evidence";
import type { Belief, LedBelief } from "./stakes";
import { standingObservations } from "./standing-observations";

/** Places of the causes that are defects of the unit. */
export function unitCausesOf(edition: Edition): ReadonlySet<number> {
  return new Set(edition.causes.flatMap(({ attribution }, place) => (attribution === "unit" ? [place] : [])));
}

/** What evidence comes to, the causes in the edition's order. */
export interface Known {
  /** Natural log of the probability of the evidence. */
  logEvidence: number;
  unitDefective: number;
  causes: readonly number[];
}

/** What is known from prepared evidence, the causes having the weights given; null where the evidence cannot happen. */
export function knownUnder(prepared: PreparedEvidence, unitCauses: ReadonlySet<number>, weights: CauseWeights = prepared): Known | null {
  const posterior = inferUnder(prepared, weights);
  if (posterior.outcome === "contradiction") return null;
  const { logEvidence, present: causes } = posterior;
  const logUnitSound = logEvidenceUnder(prepared, withoutCauses(weights, unitCauses));
  return { logEvidence, unitDefective: 1 - Math.min(1, Math.exp(logUnitSound - logEvidence)), causes };
}

/** The belief in a set of probabilities, the causes in the edition's order. */
export function beliefIn({ unitDefective, causes }: Pick<Known, "unitDefective" | "causes">, edition: Edition): LedBelief {
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
  const known = knownUnder(prepareEvidence(network, evidence), unitCausesOf(edition));
  return known && beliefIn(known, edition);
}
