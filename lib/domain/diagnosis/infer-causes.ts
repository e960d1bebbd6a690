import { enumerateCauseSets } from "./enumerate-cause-sets";
import type { NoisyOrEvidence, NoisyOrNetwork } from "./noisy-or";
import { type SplitEvidence, splitEvidence } from "./split-evidence";
import { type CauseMass, logWeightBySubsets, massesBySubsets } from "./subset-programme";

/** Up to this many tying findings the subset programme takes milliseconds, whatever the number of causes. */
const ALWAYS_BY_SUBSETS = 16;

const NONE: ReadonlySet<number> = new Set();

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

/** Causes that some tying finding links; all others are settled by their own weights. */
function tiedCauses(split: SplitEvidence): number[] {
  const tied: number[] = [];
  for (let cause = 0; cause < split.present.length; cause++) {
    if ((split.present[cause] ?? 0) === 0) continue;
    if (split.tying.some((f) => (f.strengths[cause] ?? 0) > 0 || (f.inhibitors?.[cause] ?? 0) > 0)) tied.push(cause);
  }
  return tied;
}

/** Log of the weight of the causes that stand by themselves, and of what no cause has a say in. */
function logOfTheRest(split: SplitEvidence, tied: readonly number[]): number {
  const isTied = new Set(tied);
  let log = split.logConstant;
  for (let cause = 0; cause < split.present.length; cause++) {
    if (!isTied.has(cause)) log += Math.log((split.absent[cause] ?? 0) + (split.present[cause] ?? 0));
  }
  return log;
}

/** Whether enumeration has fewer steps per finding: 2^causes against 2 * causes * 2^findings. */
function isTooWide(split: SplitEvidence, tied: readonly number[]): boolean {
  const findings = split.tying.length;
  return findings > ALWAYS_BY_SUBSETS && 2 ** tied.length < 2 * tied.length * 2 ** findings;
}

/**
 * Log evidence: how probable the evidence is under the network, in natural log; minus infinity when it cannot
 * happen. With `forcedOff` it is the joint probability of the evidence and of those causes all being absent, which
 * answers "is any of them there": P(any of U | E) = 1 - exp(logEvidence(U off) - logEvidence).
 *
 * Example: one cause of prior 0.2, a finding with leak 0.1 and link 0.8, seen: log(0.8 * 0.1 + 0.2 * 0.82) =
 * log(0.244); with the cause forced off log(0.08), so that the cause has probability 1 - 0.08 / 0.244 = 0.672.
 */
export function logEvidenceOf(
  network: NoisyOrNetwork,
  evidence: readonly NoisyOrEvidence[],
  forcedOff: ReadonlySet<number> = NONE,
): number {
  const split = splitEvidence(network, evidence, forcedOff);
  const tied = tiedCauses(split);
  const logTied = isTooWide(split, tied) ? enumerateCauseSets(split, tied).logWeight : logWeightBySubsets(split, tied);
  const log = logOfTheRest(split, tied) + logTied;
  return Number.isNaN(log) ? Number.NEGATIVE_INFINITY : log;
}

/**
 * Posterior of the causes: exact, with any number of causes at once. The subset programme does the work;
 * enumeration of cause sets stands in where more than 16 findings tie causes together and it is cheaper.
 *
 * Example: as for `logEvidenceOf`, present 0.672 and absent 0.328.
 */
export function inferCauses(network: NoisyOrNetwork, evidence: readonly NoisyOrEvidence[]): Posterior {
  const split = splitEvidence(network, evidence, NONE);
  const tied = tiedCauses(split);
  const together = isTooWide(split, tied) ? enumerateCauseSets(split, tied) : massesBySubsets(split, tied);
  const logEvidence = logOfTheRest(split, tied) + together.logWeight;
  if (!Number.isFinite(logEvidence)) return { outcome: "contradiction" };

  const masses: CauseMass[] = network.priors.map((_, cause) => ({
    present: split.present[cause] ?? 0,
    absent: split.absent[cause] ?? 0,
  }));
  tied.forEach((cause, place) => {
    const mass = together.masses[place];
    if (mass) masses[cause] = mass;
  });
  return {
    outcome: "consistent",
    logEvidence,
    present: masses.map(({ present, absent }) => present / (present + absent)),
    absent: masses.map(({ present, absent }) => absent / (present + absent)),
  };
}
