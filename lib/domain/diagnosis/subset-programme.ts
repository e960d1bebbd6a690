import type { SplitEvidence, TyingFinding } from "./split-evidence";

// Reads of typed arrays below stay inside their bounds; `as number` says so to the compiler.

/** One tying finding as a digit of the state: off, on, and (with inhibitors) suppressed. */
interface Digit {
  finding: TyingFinding;
  stride: number;
  radix: 2 | 3;
}

/** The odds of one cause as two sums of non-negative terms, on a scale of their own. */
export interface CauseMass {
  present: number;
  absent: number;
}

interface StateSpace {
  digits: Digit[];
  size: number;
}

function stateSpaceOf(tying: readonly TyingFinding[]): StateSpace {
  let size = 1;
  const digits = tying.map((finding): Digit => {
    const radix = finding.inhibitors ? 3 : 2;
    const digit: Digit = { finding, stride: size, radix };
    size *= radix;
    return digit;
  });
  return { digits, size };
}

/** Product over the digits of a weight per value: off, on, suppressed. */
function fillByDigit(table: Float64Array, space: StateSpace, weights: (digit: Digit) => readonly number[]): void {
  table[0] = 1;
  for (const digit of space.digits) {
    const [off = 0, on = 0, suppressed = 0] = weights(digit);
    for (let state = 0; state < digit.stride; state++) {
      const before = table[state] as number;
      table[state] = before * off;
      table[state + digit.stride] = before * on;
      if (digit.radix === 3) table[state + 2 * digit.stride] = before * suppressed;
    }
  }
}

/** Carries the distribution over states through one cause being there: it may switch each digit on. */
function switchOn(table: Float64Array, space: StateSpace, cause: number): void {
  for (const { finding, stride, radix } of space.digits) {
    const strength = finding.strengths[cause] as number;
    const inhibitor = finding.inhibitors ? (finding.inhibitors[cause] as number) : 0;
    if (strength === 0 && inhibitor === 0) continue;
    for (let block = 0; block < space.size; block += stride * radix) {
      for (let state = block; state < block + stride; state++) {
        const off = table[state] as number;
        const on = table[state + stride] as number;
        table[state] = off * (1 - strength) * (1 - inhibitor);
        table[state + stride] = (on + off * strength) * (1 - inhibitor);
        if (radix === 3) {
          const suppressed = table[state + 2 * stride] as number;
          table[state + 2 * stride] = suppressed + (off + on) * inhibitor;
        }
      }
    }
  }
}

/** The same step read backwards: what a state is worth before the cause, from its worth after it. */
function worthBefore(table: Float64Array, space: StateSpace, cause: number): void {
  for (const { finding, stride, radix } of space.digits) {
    const strength = finding.strengths[cause] as number;
    const inhibitor = finding.inhibitors ? (finding.inhibitors[cause] as number) : 0;
    if (strength === 0 && inhibitor === 0) continue;
    for (let block = 0; block < space.size; block += stride * radix) {
      for (let state = block; state < block + stride; state++) {
        const off = table[state] as number;
        const on = table[state + stride] as number;
        const suppressed = radix === 3 ? (table[state + 2 * stride] as number) : 0;
        table[state] = (1 - inhibitor) * ((1 - strength) * off + strength * on) + inhibitor * suppressed;
        table[state + stride] = (1 - inhibitor) * on + inhibitor * suppressed;
      }
    }
  }
}

/** Divides a table by its largest entry, so that long products never underflow; returns the log of the divisor. */
function rescale(table: Float64Array, size: number): number {
  let largest = 0;
  for (let state = 0; state < size; state++) largest = Math.max(largest, table[state] as number);
  if (largest === 0) return Number.NEGATIVE_INFINITY;
  for (let state = 0; state < size; state++) table[state] = (table[state] as number) / largest;
  return Math.log(largest);
}

function dot(left: Float64Array, right: Float64Array, size: number): number {
  let sum = 0;
  for (let state = 0; state < size; state++) sum += (left[state] as number) * (right[state] as number);
  return sum;
}

/** Tables kept between calls: a ranking asks some thirty times in a row. */
const kept = new Map<string, Float64Array>();
function table(name: string, size: number): Float64Array {
  const before = kept.get(name);
  if (before && before.length >= size) return before;
  const made = new Float64Array(size);
  // Large tables are rare; keeping them would hold tens of megabytes for nothing.
  if (size <= 4096) kept.set(name, made);
  return made;
}

const leakWeights = ({ finding }: Digit) => [1 - finding.leak, finding.leak, 0];
const finalWeights = ({ finding }: Digit) => [finding.weightOff, finding.weightOn, finding.weightOff];

/** One step forward: the states after a cause that may be absent or present. */
function stepForward(states: Float64Array, withCause: Float64Array, space: StateSpace, cause: number, split: SplitEvidence): void {
  withCause.set(states.subarray(0, space.size));
  switchOn(withCause, space, cause);
  const absent = split.absent[cause] as number;
  const present = split.present[cause] as number;
  for (let state = 0; state < space.size; state++) {
    states[state] = absent * (states[state] as number) + present * (withCause[state] as number);
  }
}

/**
 * Subset programme, forward only: natural log of the weight of the evidence over the causes named.
 *
 * The state is the set of tying findings switched on so far. It starts with the leaks; each cause in turn leaves it
 * as it is (absent) or may switch findings on (present). Only sums and products of non-negative numbers occur, so
 * the relative error stays near 1e-14 however improbable the evidence. Time: causes * findings * 2^findings.
 *
 * Source: the noisy-or factorised in time (compare Diez and Galan 2003; Zhang and Poole 1996, from memory), written
 * for two layers. Example: one finding with leak 0.1 seen, two causes of prior 0.2 and links 0.8 and 0.5: the
 * result is log(0.64 * 0.1 + 0.16 * 0.82 + 0.16 * 0.55 + 0.04 * 0.91).
 */
export function logWeightBySubsets(split: SplitEvidence, causes: readonly number[]): number {
  const space = stateSpaceOf(split.tying);
  const states = table("states", space.size);
  const withCause = table("with", space.size);
  fillByDigit(states, space, leakWeights);
  let logScale = 0;
  for (const cause of causes) {
    stepForward(states, withCause, space, cause, split);
    logScale += rescale(states, space.size);
  }
  fillByDigit(withCause, space, finalWeights);
  return logScale + Math.log(dot(states, withCause, space.size));
}

/** Weight of the evidence over the causes named, and what each of them has of it. */
export interface WeightAndMasses {
  /** Natural log. */
  logWeight: number;
  /** In the order of the causes named. */
  masses: CauseMass[];
}

/**
 * Subset programme, forward and backward: the weight of the evidence, and for every cause named the weight of it
 * being present and absent, each pair on a scale of its own (only their ratio has a meaning), as in a hidden Markov
 * chain over the causes.
 */
export function massesBySubsets(split: SplitEvidence, causes: readonly number[]): WeightAndMasses {
  const space = stateSpaceOf(split.tying);
  const { size } = space;
  // What a state is worth once the causes before a place are dealt with.
  const worths = table("worths", size * (causes.length + 1));
  const worthAt = (place: number) => worths.subarray(place * size, (place + 1) * size);
  fillByDigit(worthAt(causes.length), space, finalWeights);
  for (let place = causes.length - 1; place >= 0; place--) {
    const cause = causes[place] as number;
    const after = worthAt(place + 1);
    const before = worthAt(place);
    before.set(after);
    worthBefore(before, space, cause);
    const absent = split.absent[cause] as number;
    const present = split.present[cause] as number;
    for (let state = 0; state < size; state++) {
      before[state] = absent * (after[state] as number) + present * (before[state] as number);
    }
    rescale(before, size);
  }

  const states = table("states", size);
  const withCause = table("with", size);
  fillByDigit(states, space, leakWeights);
  let logScale = 0;
  const masses = causes.map((cause, place): CauseMass => {
    const after = worthAt(place + 1);
    const absent = (split.absent[cause] as number) * dot(states, after, size);
    stepForward(states, withCause, space, cause, split);
    const present = (split.present[cause] as number) * dot(withCause, after, size);
    logScale += rescale(states, size);
    return { present, absent };
  });
  return { logWeight: logScale + Math.log(dot(states, worthAt(causes.length), size)), masses };
}
