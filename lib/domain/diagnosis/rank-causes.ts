import { ATTRIBUTIONS, type Attribution } from "./attributions";
import { type ClaimNetwork, claimNetwork } from "./claim-network";
import { stepOf } from "./evidence-step";
import { type ClaimContext, experienceWith, NO_CONTEXT } from "./experience";
import { inferCauses, logEvidenceOf } from "./infer-causes";
import type { Cause, Edition } from "./knowledge";
import type { Observation } from "./observation";
import { COMPLAINT, EXPERIENCE, type EvidenceStep, type RankedCause, type Ranking } from "./ranking";
import { type StandingObservation, standingObservations } from "./standing-observations";
import { stopEngineFor } from "./stop-engine";

/** Log-odds beyond this say no more than "certain", and keep a ranking free of infinities. */
const CERTAIN = 700;

const bounded = (logOdds: number) => Math.min(CERTAIN, Math.max(-CERTAIN, logOdds));

/** A smaller change of log-odds than this is rounding, and none. */
const ROUNDING = 1e-12;

/** Log-odds of every cause; null where the evidence cannot happen. */
function logOddsOf({ network, evidence }: ClaimNetwork): number[] | null {
  const posterior = inferCauses(network, evidence);
  if (posterior.outcome === "contradiction") return null;
  return posterior.present.map((present, cause) => bounded(Math.log(present / (posterior.absent[cause] ?? 0))));
}

interface WeightsInOrder {
  steps: EvidenceStep[];
  /** Per cause, one for each step. */
  weights: number[][];
}

/**
 * Sequential weights of evidence (Good 1950, from memory): what each observation adds to the log-odds of each cause
 * when taken in the fixed order, so that base log-odds plus the weights is the posterior log-odds. What is known of the
 * kit comes first, the complaint itself between the circumstances and the sites.
 */
function weightsInOrder(counted: readonly StandingObservation[], edition: Edition, context: ClaimContext): WeightsInOrder {
  const steps: EvidenceStep[] = [];
  const weights: number[][] = edition.causes.map(() => []);
  let before = edition.causes.map(({ base }) => bounded(Math.log(base.value / (1 - base.value))));
  const take = (step: EvidenceStep, claim: ClaimNetwork) => {
    const after = logOddsOf(claim) ?? before;
    steps.push(step);
    weights.forEach((list, cause) => {
      const weight = (after[cause] ?? 0) - (before[cause] ?? 0);
      list.push(Math.abs(weight) < ROUNDING ? 0 : weight);
    });
    before = after;
  };
  const circumstances = counted.filter(({ kind }) => kind === "circumstance");
  const found = counted.filter(({ kind }) => kind === "evidence");
  if (experienceWith(context, edition).size > 0) {
    take({ finding: EXPERIENCE, answer: "known", observer: null }, claimNetwork([], edition, context, "left out"));
  }
  circumstances.forEach((one, place) => {
    take(stepOf(one), claimNetwork(circumstances.slice(0, place + 1), edition, context, "left out"));
  });
  take({ finding: COMPLAINT, answer: "made", observer: "customer" }, claimNetwork(circumstances, edition, context));
  found.forEach((one, place) => {
    take(stepOf(one), claimNetwork([...circumstances, ...found.slice(0, place + 1)], edition, context));
  });
  return { steps, weights };
}

/** Places of the causes that a question names. */
function placesOf(edition: Edition, isMeant: (cause: Cause) => boolean): Set<number> {
  return new Set(edition.causes.flatMap((cause, place) => (isMeant(cause) ? [place] : [])));
}

/**
 * Ranking of the causes of one claim: exact probabilities of every cause and the joint answers (is the unit
 * defective, is nothing wrong, does nothing known explain it), with the evidence for and against each cause.
 *
 * Joint answers are queries of their own, never sums: P(any of U | E) = 1 - Z(U absent) / Z. "Nothing wrong" is the
 * chance that only normal causes are there and that they explain every wet site; "not explained" that no cause is.
 *
 * `context` names kit and vehicle, where they are known: the edition's experience with them shifts the base figures.
 *
 * Throws a RangeError for an observation that does not fit the edition (see `checkObservation`).
 * Example: turbine wet, compressor dry, under edition 1: the drain causes lead with about 0.42 between them.
 */
export function rankCauses(observations: readonly Observation[], edition: Edition, context: ClaimContext = NO_CONTEXT): Ranking {
  const stopEngine = stopEngineFor(observations, edition);
  const { counted, setAside } = standingObservations(observations, edition);
  const claim = claimNetwork(counted, edition, context);
  const posterior = inferCauses(claim.network, claim.evidence);
  if (posterior.outcome === "contradiction") return { outcome: "contradiction", edition: edition.number, context, stopEngine };

  const shareOf = ({ network, evidence }: ClaimNetwork, forcedOff: ReadonlySet<number>) =>
    Math.min(1, Math.exp(logEvidenceOf(network, evidence, forcedOff) - posterior.logEvidence));
  const anyOf = (attribution: Attribution) =>
    1 - shareOf(claim, placesOf(edition, (cause) => cause.attribution === attribution));
  // Object.fromEntries forgets which keys it was given: every attribution is among them.
  const attributions = Object.fromEntries(ATTRIBUTIONS.map((name) => [name, anyOf(name)])) as Record<Attribution, number>;

  const { steps, weights } = weightsInOrder(counted, edition, context);
  const causes = edition.causes.map(
    ({ code, attribution, part, base }, place): RankedCause => ({
      code,
      attribution,
      part,
      probability: posterior.present[place] ?? 0,
      base: base.value,
      weights: weights[place] ?? [],
    }),
  );
  return {
    outcome: "ranked",
    edition: edition.number,
    context,
    steps,
    setAside: setAside.map(stepOf),
    causes: causes.sort((a, b) => b.probability - a.probability),
    attributions,
    unitDefective: attributions.unit,
    nothingWrong: shareOf(
      claimNetwork(counted, edition, context, "made", "none"),
      placesOf(edition, (cause) => cause.attribution !== "normal"),
    ),
    notExplained: shareOf(claim, placesOf(edition, () => true)),
    logEvidence: posterior.logEvidence,
    stopEngine,
  };
}
