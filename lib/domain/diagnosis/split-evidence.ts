import { chanceOn, type NoisyOrEvidence, type NoisyOrNetwork } from "./noisy-or";

// Reads of typed arrays below stay inside their bounds; `as number` says so to the compiler.

/** Weight of each cause being absent, and present, with all evidence that speaks of it alone. */
export interface CauseWeights {
  absent: Float64Array;
  present: Float64Array;
}

/** The evidence split into what each cause can settle by itself and what ties causes together. */
export interface SplitEvidence extends CauseWeights {
  /** Findings that cannot be told cause by cause: each takes a digit of the state. */
  tying: NoisyOrEvidence[];
  /** Natural log of what no cause has a say in, and of the scales taken out. */
  logConstant: number;
}

/** The only possible cause that has a say in a finding; "several", or "none". */
function onlyCauseOf({ finding }: NoisyOrEvidence, present: Float64Array): number | "several" | "none" {
  let only: number | "none" = "none";
  for (const list of [finding.links, finding.inhibitors ?? []]) {
    for (const { cause, strength } of list) {
      if (strength === 0 || present[cause] === 0 || cause === only) continue;
      if (only !== "none") return "several";
      only = cause;
    }
  }
  return only;
}

/**
 * Splits evidence, so that the costly part stays small. Three kinds of finding need no digit of the state:
 * one that is off and has no inhibitors is a product over the causes; one with a single possible cause is a
 * factor of that cause; one with none is a constant.
 *
 * A finding may rule a cause out and so leave another with fewer possible causes: what ties is looked at again until
 * nothing more is settled.
 *
 * Source: the factorisation of negative findings is Heckerman's (1989); the other two follow from the formula of
 * the noisy-or. Example: a finding with leak 0.1 and one link of 0.8, seen, multiplies the cause's absent weight
 * by 0.1 and its present weight by 0.82.
 */
export function splitEvidence(network: NoisyOrNetwork, evidence: readonly NoisyOrEvidence[]): SplitEvidence {
  const absent = Float64Array.from(network.priors, (prior) => 1 - prior);
  const present = Float64Array.from(network.priors);
  let logConstant = 0;

  const isSettled = (one: NoisyOrEvidence): boolean => {
    const { finding, weightOn, weightOff } = one;
    const weigh = (on: number) => weightOn * on + weightOff * (1 - on);
    const only = onlyCauseOf(one, present);
    if (only === "none") {
      logConstant += Math.log(weigh(finding.leak));
    } else if (only !== "several") {
      const weightAbsent = (absent[only] as number) * weigh(finding.leak);
      const weightPresent = (present[only] as number) * weigh(chanceOn(finding, (cause) => cause === only));
      // On the scale of the larger, so that hundreds of improbable findings do not underflow.
      const larger = Math.max(weightAbsent, weightPresent);
      logConstant += Math.log(larger);
      absent[only] = larger > 0 ? weightAbsent / larger : 0;
      present[only] = larger > 0 ? weightPresent / larger : 0;
    } else if (weightOn === 0 && !finding.inhibitors?.length) {
      logConstant += Math.log(weightOff * (1 - finding.leak));
      for (const { cause, strength } of finding.links) present[cause] = (present[cause] as number) * (1 - strength);
    } else {
      return false;
    }
    return true;
  };

  let tying = [...evidence];
  for (let before = Number.POSITIVE_INFINITY; tying.length < before; ) {
    before = tying.length;
    tying = tying.filter((one) => !isSettled(one));
  }
  return { absent, present, tying, logConstant };
}
