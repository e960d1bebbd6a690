import type { SplitEvidence } from "./split-evidence";
import type { CauseMass, WeightAndMasses } from "./subset-programme";

/** Causes enumerated inside one block: 2^12 doubles stay in the processor's cache. */
const CAUSES_IN_BLOCK = 12;

/** Chance that one of two independent things happens, added up so that small chances keep their digits. */
const either = (one: number, other: number) => one + (1 - one) * other;

/**
 * Enumeration of every set of the causes named: the fallback when too many findings tie causes together for the
 * subset programme. Time: findings * 2^causes, whatever the number of findings seen.
 *
 * The sets are gone through in blocks: the last causes vary inside a block, whose table of "switched on" is built
 * by doubling; the first ones are fixed per block. Source: the definition of the noisy-or, summed.
 * Example: two causes and one finding seen give four sets; see `logWeightBySubsets`.
 */
export function enumerateCauseSets(split: SplitEvidence, causes: readonly number[]): WeightAndMasses {
  const inner = causes.slice(0, CAUSES_IN_BLOCK);
  const outer = causes.slice(CAUSES_IN_BLOCK);
  const size = 2 ** inner.length;
  const weights = new Float64Array(size);
  const switchedOn = new Float64Array(size);
  const notSuppressed = new Float64Array(size);
  const masses = causes.map(() => ({ present: 0, absent: 0 }));
  // Weights relative to the larger of each pair, so that the sum neither overflows nor vanishes.
  const scales = causes.map((cause) => Math.max(split.absent[cause] as number, split.present[cause] as number));
  const absentOf = (place: number) => (split.absent[causes[place] as number] as number) / (scales[place] as number);
  const presentOf = (place: number) => (split.present[causes[place] as number] as number) / (scales[place] as number);
  let total = 0;

  for (let outerSet = 0; outerSet < 2 ** outer.length; outerSet++) {
    const isInOuter = (index: number) => ((outerSet >> index) & 1) === 1;
    let blockWeight = 1;
    outer.forEach((_, index) => {
      blockWeight *= isInOuter(index) ? presentOf(inner.length + index) : absentOf(inner.length + index);
    });
    if (blockWeight === 0) continue;
    weights[0] = blockWeight;
    inner.forEach((_, place) => {
      for (let set = 0; set < 2 ** place; set++) {
        weights[set + 2 ** place] = (weights[set] as number) * presentOf(place);
        weights[set] = (weights[set] as number) * absentOf(place);
      }
    });
    for (const finding of split.tying) {
      switchedOn[0] = finding.leak;
      notSuppressed[0] = 1;
      outer.forEach((cause, index) => {
        if (!isInOuter(index)) return;
        switchedOn[0] = either(switchedOn[0] as number, finding.strengths[cause] as number);
        notSuppressed[0] = (notSuppressed[0] as number) * (1 - (finding.inhibitors?.[cause] ?? 0));
      });
      inner.forEach((cause, place) => {
        const strength = finding.strengths[cause] as number;
        const spare = 1 - (finding.inhibitors?.[cause] ?? 0);
        for (let set = 0; set < 2 ** place; set++) {
          switchedOn[set + 2 ** place] = either(switchedOn[set] as number, strength);
          notSuppressed[set + 2 ** place] = (notSuppressed[set] as number) * spare;
        }
      });
      for (let set = 0; set < size; set++) {
        const on = (switchedOn[set] as number) * (notSuppressed[set] as number);
        weights[set] = (weights[set] as number) * (finding.weightOn * on + finding.weightOff * (1 - on));
      }
    }
    // Fold the block in halves: the upper half is where the last inner cause is present.
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
    const blockTotal = weights[0] as number;
    total += blockTotal;
    outer.forEach((_, index) => {
      const mass = masses[inner.length + index] as CauseMass;
      if (isInOuter(index)) mass.present += blockTotal;
      else mass.absent += blockTotal;
    });
  }
  return { logWeight: Math.log(total) + scales.reduce((sum, scale) => sum + Math.log(scale), 0), masses };
}
