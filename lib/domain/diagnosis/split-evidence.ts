import { chanceOn, type NoisyOrEvidence, type NoisyOrNetwork } from "./noisy-or";

/** A finding that ties causes together: it cannot be told cause by cause and takes a digit of the state. */
export interface TyingFinding {
  leak: number;
  weightOn: number;
  weightOff: number;
  /** Per cause, 0 where there is no link. */
  strengths: Float64Array;
  /** Per cause; null for a finding without inhibitors, which needs two states instead of three. */
  inhibitors: Float64Array | null;
}

/** The evidence split into what each cause can settle by itself and what ties causes together. */
export interface SplitEvidence {
  /** Weight of the cause being absent, and present, with all evidence that speaks of it alone. */
  absent: Float64Array;
  present: Float64Array;
  tying: TyingFinding[];
  /** Natural log of what no cause has a say in, and of the scales taken out. */
  logConstant: number;
}

/**
 * Splits evidence, so that the costly part stays small. Three kinds of finding need no digit of the state:
 * one that is off and has no inhibitors is a product over the causes; one with a single possible cause is a
 * factor of that cause; one with none is a constant.
 *
 * Source: the factorisation of negative findings is Heckerman's (1989); the other two follow from the formula of
 * the noisy-or. Example: a finding with leak 0.1 and one link of 0.8, seen, multiplies the cause's absent weight
 * by 0.1 and its present weight by 0.82.
 */
export function splitEvidence(
  network: NoisyOrNetwork,
  evidence: readonly NoisyOrEvidence[],
  forcedOff: ReadonlySet<number>,
): SplitEvidence {
  const count = network.priors.length;
  const absent = Float64Array.from(network.priors, (prior) => 1 - prior);
  const present = Float64Array.from(network.priors, (prior, cause) => (forcedOff.has(cause) ? 0 : prior));
  const isPossible = Array.from(present, (weight) => weight > 0);
  const split: SplitEvidence = { absent, present, tying: [], logConstant: 0 };

  for (const { finding, weightOn, weightOff } of evidence) {
    const inhibitors = finding.inhibitors ?? [];
    const touched = new Set<number>();
    for (const { cause } of [...finding.links, ...inhibitors]) if (isPossible[cause]) touched.add(cause);
    const factorWith = (isThere: (cause: number) => boolean) => {
      const on = chanceOn(finding, isThere);
      return weightOn * on + weightOff * (1 - on);
    };
    const [only] = touched;
    if (only === undefined) {
      split.logConstant += Math.log(factorWith(() => false));
    } else if (touched.size === 1) {
      const weightAbsent = (absent[only] ?? 0) * factorWith(() => false);
      const weightPresent = (present[only] ?? 0) * factorWith((cause) => cause === only);
      // On the scale of the larger, so that hundreds of improbable findings do not underflow.
      const larger = Math.max(weightAbsent, weightPresent);
      split.logConstant += Math.log(larger);
      absent[only] = larger > 0 ? weightAbsent / larger : 0;
      present[only] = larger > 0 ? weightPresent / larger : 0;
    } else if (weightOn === 0 && inhibitors.length === 0) {
      split.logConstant += Math.log(weightOff * (1 - finding.leak));
      for (const { cause, strength } of finding.links) present[cause] = (present[cause] ?? 0) * (1 - strength);
    } else {
      const strengths = new Float64Array(count);
      for (const { cause, strength } of finding.links) strengths[cause] = strength;
      const suppressing = new Float64Array(count);
      for (const { cause, strength } of inhibitors) suppressing[cause] = strength;
      split.tying.push({
        leak: finding.leak,
        weightOn,
        weightOff,
        strengths,
        inhibitors: inhibitors.length > 0 ? suppressing : null,
      });
    }
  }
  return split;
}
