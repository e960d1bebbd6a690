/** One way a check can come out: how probable it is, and what would then be known. */
export interface PossibleOutcome<Known> {
  probability: number;
  known: Known;
}

/**
 * Value of information: by how much the cost of the best decision is expected to fall once the check is made. Never
 * negative in truth; what the last digits of a sum take below zero counts as zero.
 *
 * Source: expected value of sample information (Raiffa and Schlaifer 1961, from memory). Example: deciding now costs
 * 30; a check comes out well in 0.8 of cases, after which deciding costs 20, else 10: 30 - (0.8 * 20 + 0.2 * 10) = 12.
 */
export function valueOfInformation<Known>(outcomes: readonly PossibleOutcome<Known>[], now: Known, costOfDeciding: (known: Known) => number): number {
  const after = outcomes.reduce((sum, { probability, known }) => sum + probability * costOfDeciding(known), 0);
  return Math.max(0, costOfDeciding(now) - after);
}

/** Entropy of a yes or no, in bits. Example: 1 at one half, 0 where it is certain. */
export function entropyBits(probability: number): number {
  if (probability <= 0 || probability >= 1) return 0;
  return -probability * Math.log2(probability) - (1 - probability) * Math.log2(1 - probability);
}
