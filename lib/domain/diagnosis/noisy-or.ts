/**
 * Noisy-or network: independent causes, any number of which may hold, and findings that each cause switches on by
 * itself with a chance of its own.
 *
 *     P(on | D) = [ 1 - (1 - leak) * prod over c in D (1 - strength_c) ] * prod over c in D (1 - inhibitor_c)
 *
 * Source: Pearl (1988) ch. 4 and, for the leak, Henrion (1989), both from memory. The inhibitor as a factor is a
 * convention of this project; no edition ships one, it is here so that the engine agrees with the reference cases.
 */
export interface NoisyOrNetwork {
  /** Prior probability per cause; a cause is named by its place in this list. */
  readonly priors: readonly number[];
}

export interface NoisyOrFinding {
  /** Chance that the finding is on with no cause there. */
  readonly leak: number;
  /** Chance that this cause alone switches it on. */
  readonly links: readonly { readonly cause: number; readonly strength: number }[];
  /** Chance that this cause suppresses it, whatever else is there. */
  readonly inhibitors?: readonly { readonly cause: number; readonly strength: number }[];
}

/**
 * What was learned about one finding, as the weight of the two states it can be in: seen (1, 0), looked at and not
 * there (0, 1), or a reading that is `lambda` times as likely when it is on (lambda, 1). Unknown is left out.
 */
export interface NoisyOrEvidence {
  readonly finding: NoisyOrFinding;
  readonly weightOn: number;
  readonly weightOff: number;
}

/** The finding was seen. */
export function seen(finding: NoisyOrFinding): NoisyOrEvidence {
  return { finding, weightOn: 1, weightOff: 0 };
}

/** The finding was looked for and is not there. */
export function notThere(finding: NoisyOrFinding): NoisyOrEvidence {
  return { finding, weightOn: 0, weightOff: 1 };
}

/**
 * Chance that a finding is on, given the causes that are there.
 *
 * Example: leak 0.1 and one link of 0.8 whose cause is there give 1 - 0.9 * 0.2 = 0.82.
 */
export function chanceOn(finding: NoisyOrFinding, isThere: (cause: number) => boolean): number {
  // Added up, not taken from 1: a small chance keeps its digits.
  let switchedOn = finding.leak;
  for (const { cause, strength } of finding.links) if (isThere(cause)) switchedOn += (1 - switchedOn) * strength;
  let notSuppressed = 1;
  for (const { cause, strength } of finding.inhibitors ?? []) if (isThere(cause)) notSuppressed *= 1 - strength;
  return switchedOn * notSuppressed;
}
