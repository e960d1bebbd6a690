import { tiedCauses } from "./cause-order";
import { enumerateCauseSets } from "./enumerate-cause-sets";
import type { NoisyOrEvidence, NoisyOrNetwork } from "./noisy-or";
import { type CauseWeights, type SplitEvidence, splitEvidence } from "./split-evidence";
import { logWeightBySubsets, massesBySubsets, type SubsetProgramme, subsetProgramme } from "./subset-programme";

/** One step of enumeration takes about as long as two of the subset programme, measured. */
const ENUMERATION_IS_SLOWER = 2;
/** Beyond this many states the tables of the subset programme would take more than a hundred megabytes. */
const LARGEST_TABLE = 2 ** 18;

/** Exact posterior of every cause, or the plain statement that the evidence cannot happen. */
export type Posterior =
  | {
      outcome: "consistent";
      /** Natural log of the probability of the evidence. */
      logEvidence: number;
      /** Per cause; both are sums of non-negative terms, so that log-odds stay exact near 0 and 1. */
      present: readonly number[];
      absent: readonly number[];
    }
  | { outcome: "contradiction" };

/** Evidence made ready to be asked several questions that differ only in the weights of the causes. */
export interface PreparedEvidence extends SplitEvidence {
  /** Causes that some tying finding links; all others are settled by their own weights. */
  tied: readonly number[];
  /** Null where enumeration takes fewer steps. */
  programme: SubsetProgramme | null;
}

export function prepareEvidence(network: NoisyOrNetwork, evidence: readonly NoisyOrEvidence[]): PreparedEvidence {
  const split = splitEvidence(network, evidence);
  const causes = tiedCauses(split.tying, split.present);
  const programme = subsetProgramme(split.tying, causes);
  const isTooWide = programme.steps > ENUMERATION_IS_SLOWER * split.tying.length * 2 ** causes.length || programme.largest > LARGEST_TABLE;
  return { ...split, tied: causes.map(({ cause }) => cause), programme: isTooWide ? null : programme };
}

/** Log of the weight of the causes that stand by themselves, and of what no cause has a say in. */
function logOfTheRest({ logConstant, tied }: PreparedEvidence, { absent, present }: CauseWeights): number {
  let log = logConstant;
  for (let cause = 0; cause < present.length; cause++) {
    if (!tied.includes(cause)) log += Math.log((absent[cause] ?? 0) + (present[cause] ?? 0));
  }
  return log;
}

/** The weights with some causes ruled out. */
export function withoutCauses({ absent, present }: CauseWeights, forcedOff: ReadonlySet<number>): CauseWeights {
  return { absent, present: present.map((weight, cause) => (forcedOff.has(cause) ? 0 : weight)) };
}

/** `logEvidenceOf` evidence that is prepared, the causes having the weights given. */
export function logEvidenceUnder(prepared: PreparedEvidence, weights: CauseWeights = prepared): number {
  const { tying, tied, programme } = prepared;
  const logTied = programme ? logWeightBySubsets(programme, weights) : enumerateCauseSets(tying, tied, weights).logWeight;
  const log = logOfTheRest(prepared, weights) + logTied;
  return Number.isNaN(log) ? Number.NEGATIVE_INFINITY : log;
}

/** `inferCauses` of evidence that is prepared, the causes having the weights given. */
export function inferUnder(prepared: PreparedEvidence, weights: CauseWeights = prepared): Posterior {
  const { tying, tied, programme } = prepared;
  const { logWeight, masses } = programme ? massesBySubsets(programme, weights) : enumerateCauseSets(tying, tied, weights);
  const logEvidence = logOfTheRest(prepared, weights) + logWeight;
  if (!Number.isFinite(logEvidence)) return { outcome: "contradiction" };
  const present: number[] = [];
  const absent: number[] = [];
  for (let cause = 0; cause < weights.present.length; cause++) {
    const mass = masses.get(cause);
    const massPresent = mass ? mass.present : (weights.present[cause] ?? 0);
    const massAbsent = mass ? mass.absent : (weights.absent[cause] ?? 0);
    present.push(massPresent / (massPresent + massAbsent));
    absent.push(massAbsent / (massPresent + massAbsent));
  }
  return { outcome: "consistent", logEvidence, present, absent };
}

/**
 * Log evidence: how probable the evidence is under the network, in natural log; minus infinity when it cannot
 * happen. With `forcedOff` it is the joint probability of the evidence and of those causes all being absent, which
 * answers "is any of them there": P(any of U | E) = 1 - exp(logEvidence(U off) - logEvidence).
 *
 * Example: one cause of prior 0.2, a finding with leak 0.1 and link 0.8, seen: log(0.8 * 0.1 + 0.2 * 0.82) =
 * log(0.244); with the cause forced off log(0.08), so that the cause has probability 1 - 0.08 / 0.244 = 0.672.
 */
export function logEvidenceOf(network: NoisyOrNetwork, evidence: readonly NoisyOrEvidence[], forcedOff?: ReadonlySet<number>): number {
  const prepared = prepareEvidence(network, evidence);
  return logEvidenceUnder(prepared, forcedOff ? withoutCauses(prepared, forcedOff) : prepared);
}

/**
 * Posterior of the causes: exact, with any number of causes at once. The subset programme does the work;
 * enumeration of cause sets stands in where so many findings are open at a time that it is cheaper.
 *
 * Example: as for `logEvidenceOf`, present 0.672 and absent 0.328.
 */
export function inferCauses(network: NoisyOrNetwork, evidence: readonly NoisyOrEvidence[]): Posterior {
  return inferUnder(prepareEvidence(network, evidence));
}
