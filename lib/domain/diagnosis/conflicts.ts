import { claimNetwork } from "./claim-network";
import { stepOf } from "./evidence-step";
import type { ClaimContext } from "./experience";
import { indexedEdition } from "./indexed-edition";
import { logEvidenceOf } from "./infer-causes";
import type { Edition } from "./knowledge";
import { type NoisyOrEvidence, notThere, seen } from "./noisy-or";
import type { Observation } from "./observation";
import type { EvidenceStep } from "./ranking";
import { type StandingEvidence, type StandingObservation, standingObservations } from "./standing-observations";

/** A finding that does not fit with the rest. */
export interface Conflict {
  step: EvidenceStep;
  /** It was found and nothing known explains it, or it was looked for in vain where the rest leads one to expect it. */
  kind: "unexplained" | "missing";
  /** How probable that finding was, going by all others alone. */
  probability: number;
}

/** From here on "nothing known explains it" is said of a finding (judgement). */
const NOTHING_EXPLAINS_IT = 0.9;
/** And it is found, or missed, this seldom (judgement). Of claims drawn from edition 1 itself one in a hundred has a conflict then; without this bound 15. */
const SELDOM = 0.1;

/** Chances of one finding, given all others, that it is on and that it is off. */
interface GivenTheRest {
  on: number;
  off: number;
}

function givenTheRest(one: StandingEvidence, counted: readonly StandingObservation[], edition: Edition, context: ClaimContext): GivenTheRest | null {
  const { network, evidence } = claimNetwork(counted.filter((other) => other !== one), edition, context);
  const figures = indexedEdition(edition).figuresFor(one.definition, one.observer);
  const logRest = logEvidenceOf(network, evidence);
  if (!Number.isFinite(logRest)) return null;
  const chanceOf = (added: NoisyOrEvidence) => Math.min(1, Math.exp(logEvidenceOf(network, [...evidence, added]) - logRest));
  return { on: chanceOf(seen(figures)), off: chanceOf(notThere(figures)) };
}

/**
 * Whether a finding conflicts with the rest. With background b, and q the chance that it is on given all else, no cause
 * switches it on with (1 - q) / (1 - b), so that it is on by its background alone with b (1 - q) / (1 - b).
 *
 * Found: a conflict where q is at most 0.1 and the background alone has at least 0.9 of it. Not there: where its chance
 * is at most a tenth of what it would be with no cause. A reading is the one or the other by the side it speaks for, each
 * side weighed by its ratio.
 */
function conflictOf({ definition, observer, weightOn, weightOff }: StandingEvidence, { on, off }: GivenTheRest): Pick<Conflict, "kind" | "probability"> | null {
  const background = definition.background[observer].value;
  const probability = weightOn * on + weightOff * off;
  if (weightOn > weightOff) {
    const byBackground = background < 1 ? (weightOn * background * off) / (1 - background) / probability : 1;
    const isSeldom = on <= SELDOM;
    return isSeldom && byBackground >= NOTHING_EXPLAINS_IT ? { kind: "unexplained", probability: on } : null;
  }
  const withoutCause = weightOn * background + weightOff * (1 - background);
  return weightOff > weightOn && probability <= SELDOM * withoutCause ? { kind: "missing", probability: off } : null;
}

/**
 * Conflicts: findings that do not fit with all the others, each held against the rest (leave one out), the least
 * probable first. One may be wrong, or the edition may lack what explains it: either calls for a second look.
 *
 * Example: a cause that is certain shows a sign in 99 of 100; looked for and not there, the sign has a hundredth of the
 * chance that it has with no cause, and is missing.
 */
export function conflictsIn(observations: readonly Observation[], edition: Edition, context: ClaimContext): Conflict[] {
  const { counted } = standingObservations(observations, edition);
  return counted
    .flatMap((one): Conflict[] => {
      const chances = one.kind === "evidence" ? givenTheRest(one, counted, edition, context) : null;
      const conflict = one.kind === "evidence" && chances ? conflictOf(one, chances) : null;
      return conflict ? [{ step: stepOf(one), ...conflict }] : [];
    })
    .sort((a, b) => a.probability - b.probability);
}
