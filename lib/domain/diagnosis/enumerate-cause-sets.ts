import type { NoisyOrEvidence } from "./noisy-or";
import type { CauseWeights } from "./split-evidence";
import type { CauseMass, WeightAndMasses } from "./subset-programme";

// Reads of typed arrays and of lists below stay inside their bounds; `as number` says so to the compiler.

/** Causes that vary inside one block: its tables of 2^12 doubles stay in the processor's cache. */
const CAUSES_IN_BLOCK = 12;

/** Tables over the sets of the inner causes, for one set of the outer ones. */
interface Block {
  inner: readonly number[];
  outer: readonly number[];
  weights: Float64Array;
  switchedOn: Float64Array;
  notSuppressed: Float64Array;
}

/** Chance that one of two independent things happens, added up so that small chances keep their digits. */
const either = (one: number, other: number) => one + (1 - one) * other;

/** Weight of each set of causes before any tying finding, built by doubling. */
function startBlock({ inner, weights }: Block, outerWeight: number, { absent, present }: CauseWeights): void {
  weights[0] = outerWeight;
  inner.forEach((cause, place) => {
    for (let set = 0; set < 2 ** place; set++) {
      const before = weights[set] as number;
      weights[set] = before * (absent[cause] as number);
      weights[set + 2 ** place] = before * (present[cause] as number);
    }
  });
}

/** Multiplies each set's weight by the chance of one finding under it. */
function weighFinding(block: Block, isInOuterSet: (place: number) => boolean, { finding, weightOn, weightOff }: NoisyOrEvidence): void {
  const { inner, outer, weights, switchedOn, notSuppressed } = block;
  const chanceOf = (list: typeof finding.links, cause: number) => list.reduce((chance, one) => (one.cause === cause ? either(chance, one.strength) : chance), 0);
  const strengthOf = (cause: number) => chanceOf(finding.links, cause);
  const inhibitorOf = (cause: number) => chanceOf(finding.inhibitors ?? [], cause);
  const there = outer.filter((_, place) => isInOuterSet(place));
  switchedOn[0] = there.reduce((on, cause) => either(on, strengthOf(cause)), finding.leak);
  notSuppressed[0] = there.reduce((chance, cause) => chance * (1 - inhibitorOf(cause)), 1);
  inner.forEach((cause, place) => {
    const strength = strengthOf(cause);
    const spared = 1 - inhibitorOf(cause);
    for (let set = 0; set < 2 ** place; set++) {
      switchedOn[set + 2 ** place] = either(switchedOn[set] as number, strength);
      notSuppressed[set + 2 ** place] = (notSuppressed[set] as number) * spared;
    }
  });
  for (let set = 0; set < weights.length; set++) {
    const on = (switchedOn[set] as number) * (notSuppressed[set] as number);
    weights[set] = (weights[set] as number) * (weightOn * on + weightOff * (1 - on));
  }
}

/** Adds up a block in halves, the upper half being where the last inner cause is present; returns the total. */
function foldBlock({ inner, weights }: Block, masses: readonly CauseMass[]): number {
  for (let place = inner.length - 1; place >= 0; place--) {
    const mass = masses[place] as CauseMass;
    for (let set = 0; set < 2 ** place; set++) {
      const absent = weights[set] as number;
      const present = weights[set + 2 ** place] as number;
      mass.absent += absent;
      mass.present += present;
      weights[set] = absent + present;
    }
  }
  return weights[0] as number;
}

/**
 * Enumeration of every set of the causes named: the fallback when too many findings tie causes together for the
 * subset programme. Time: findings * 2^causes, however many findings are open at a time.
 *
 * Goes through the sets in blocks: the first causes vary inside a block, the others from block to block. Source: the
 * definition of the noisy-or, summed. Example: two causes and one finding give four sets; see `logWeightBySubsets`.
 */
export function enumerateCauseSets(tying: readonly NoisyOrEvidence[], causes: readonly number[], causeWeights: CauseWeights): WeightAndMasses {
  const inner = causes.slice(0, CAUSES_IN_BLOCK);
  const outer = causes.slice(CAUSES_IN_BLOCK);
  const tableOfSets = () => new Float64Array(2 ** inner.length);
  const block: Block = { inner, outer, weights: tableOfSets(), switchedOn: tableOfSets(), notSuppressed: tableOfSets() };
  const masses = causes.map((): CauseMass => ({ present: 0, absent: 0 }));
  let total = 0;

  for (let outerSet = 0; outerSet < 2 ** outer.length; outerSet++) {
    const isInOuterSet = (place: number) => ((outerSet >> place) & 1) === 1;
    const outerWeight = outer.reduce(
      (weight, cause, place) => weight * ((isInOuterSet(place) ? causeWeights.present : causeWeights.absent)[cause] as number),
      1,
    );
    if (outerWeight === 0) continue;
    startBlock(block, outerWeight, causeWeights);
    for (const evidence of tying) weighFinding(block, isInOuterSet, evidence);
    const blockTotal = foldBlock(block, masses);
    total += blockTotal;
    outer.forEach((_, place) => {
      const mass = masses[inner.length + place] as CauseMass;
      if (isInOuterSet(place)) mass.present += blockTotal;
      else mass.absent += blockTotal;
    });
  }
  return { logWeight: Math.log(total), masses: new Map(causes.map((cause, place) => [cause, masses[place] as CauseMass])) };
}
