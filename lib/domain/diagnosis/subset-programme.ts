import { causesOfEach, orderOfCauses, type Say, type TiedCause } from "./cause-order";
import type { NoisyOrEvidence } from "./noisy-or";
import type { CauseWeights } from "./split-evidence";
import { addInto, bringIn, copy, dot, sumOut, switchOn, switchTwoOn, table, throughAll, type Turn, worthBefore, worthBeforeTwo } from "./subset-tables";

// Reads of typed arrays below stay inside their bounds; `as number` says so to the compiler.

/** The turn of one cause: findings whose last cause it is close, others stay open, those whose first it is open. */
interface Place {
  cause: number;
  closing: Turn[];
  staying: Turn[];
  opening: Turn[];
  sizeBefore: number;
  /** While only the findings that stay open have a digit. */
  sizeBetween: number;
  sizeAfter: number;
}

/** The turns of all causes in order; made once for a set of tying findings and asked with any weights of the causes. */
export interface SubsetProgramme {
  places: readonly Place[];
  largest: number;
  /** About how many steps one pass takes. */
  steps: number;
}

/** Of a finding that stays open. */
const NO_WEIGHTS: Pick<Turn, "whenAbsent" | "whenPresent"> = { whenAbsent: [1, 1, 1], whenPresent: [1, 1, 1] };

function openWeights({ finding: { leak } }: NoisyOrEvidence, { strength, inhibitor }: Say): Pick<Turn, "whenAbsent" | "whenPresent"> {
  const spared = 1 - inhibitor;
  return {
    whenAbsent: [1 - leak, leak, 0],
    whenPresent: [(1 - leak) * (1 - strength) * spared, (leak + (1 - leak) * strength) * spared, inhibitor],
  };
}

function closeWeights({ weightOn, weightOff }: NoisyOrEvidence, { strength, inhibitor }: Say): Pick<Turn, "whenAbsent" | "whenPresent"> {
  const spared = 1 - inhibitor;
  const on = spared * weightOn + inhibitor * weightOff;
  return {
    whenAbsent: [weightOff, weightOn, weightOff],
    whenPresent: [spared * ((1 - strength) * weightOff + strength * weightOn) + inhibitor * weightOff, on, weightOff],
  };
}

/** Open findings, the digit with the smallest stride first. */
class OpenFindings {
  readonly #tying: readonly NoisyOrEvidence[];
  #open: number[] = [];

  constructor(tying: readonly NoisyOrEvidence[]) {
    this.#tying = tying;
  }

  radixOf(finding: number): 2 | 3 {
    return this.#tying[finding]?.finding.inhibitors?.length ? 3 : 2;
  }

  has(finding: number): boolean {
    return this.#open.includes(finding);
  }

  /** Stride of a finding's digit; of one that is not open the size of the table. */
  strideOf(finding: number): number {
    let stride = 1;
    for (const one of this.#open) {
      if (one === finding) return stride;
      stride *= this.radixOf(one);
    }
    return stride;
  }

  get size(): number {
    return this.strideOf(-1);
  }

  open(finding: number): void {
    this.#open.push(finding);
  }

  close(finding: number): void {
    this.#open = this.#open.filter((one) => one !== finding);
  }
}

/**
 * Writes a subset programme down: the causes in an order that keeps few findings open, and where each finding's digit
 * enters the table of states and leaves it.
 */
export function subsetProgramme(tying: readonly NoisyOrEvidence[], causes: readonly TiedCause[]): SubsetProgramme {
  const toCome = causesOfEach(causes, tying.length);
  const findings = new OpenFindings(tying);
  const turnOf = (say: Say, weights: Pick<Turn, "whenAbsent" | "whenPresent">): Turn => {
    const { finding, strength, inhibitor } = say;
    return { stride: findings.strideOf(finding), radix: findings.radixOf(finding), strength, inhibitor, ...weights };
  };
  let largest = 1;
  let steps = 0;

  const places = orderOfCauses(causes, tying.length).map(({ cause, says }): Place => {
    const place: Place = { cause, closing: [], staying: [], opening: [], sizeBefore: findings.size, sizeBetween: 0, sizeAfter: 0 };
    const staying: Say[] = [];
    const opening: Say[] = [];
    for (const say of says) {
      const left = (toCome[say.finding] ?? 0) - 1;
      toCome[say.finding] = left;
      if (!findings.has(say.finding)) opening.push(say);
      else if (left > 0) staying.push(say);
      else {
        place.closing.push(turnOf(say, closeWeights(tying[say.finding] as NoisyOrEvidence, say)));
        findings.close(say.finding);
      }
    }
    place.sizeBetween = findings.size;
    place.staying = staying.map((say) => turnOf(say, NO_WEIGHTS)).sort((a, b) => a.stride - b.stride);
    for (const say of opening) {
      place.opening.push(turnOf(say, openWeights(tying[say.finding] as NoisyOrEvidence, say)));
      findings.open(say.finding);
    }
    place.sizeAfter = findings.size;
    largest = Math.max(largest, place.sizeBefore, place.sizeAfter);
    steps += place.sizeBefore + place.sizeAfter + place.sizeBetween * (2 + staying.length);
    return place;
  });
  return { places, largest, steps };
}

/** First half of a turn, forwards: `states` becomes what is between with the cause absent, `present` with it there. */
function between(place: Place, states: Float64Array, present: Float64Array, isPossible: boolean): void {
  if (isPossible) {
    copy(states, present, place.sizeBefore);
    let size = place.sizeBefore;
    for (const turn of place.closing) {
      sumOut(present, size, turn, turn.whenPresent);
      size /= turn.radix;
    }
    throughAll(place.staying, present, size, switchOn, switchTwoOn);
  }
  let size = place.sizeBefore;
  for (const turn of place.closing) {
    sumOut(states, size, turn, turn.whenAbsent);
    size /= turn.radix;
  }
}

/** Second half: findings open, and both branches are added up in `states`. Returns the log of the scale taken out. */
function after(place: Place, states: Float64Array, present: Float64Array, { absent: weightAbsent, present: weightPresent }: CauseWeights): number {
  const isPossible = weightPresent[place.cause] !== 0;
  let size = place.sizeBetween;
  for (const turn of place.opening) {
    size *= turn.radix;
    bringIn(states, size, turn, turn.whenAbsent);
    if (isPossible) bringIn(present, size, turn, turn.whenPresent);
  }
  return addInto(states, weightAbsent[place.cause] as number, isPossible ? present : states, weightPresent[place.cause] as number, size);
}

/**
 * Subset programme, forward only: natural log of the weight of the evidence, the causes having the weights given.
 *
 * The state is the set of open findings switched on so far. Each cause in turn leaves it as it is (absent) or may
 * switch findings on (present). A finding takes a digit of the state from the first cause that has a say in it to the
 * last, and is summed out then. Only sums and products of non-negative numbers occur, so the relative error stays near
 * 1e-14 however improbable the evidence. Time: causes * 2^(findings open at a time).
 *
 * Source: the noisy-or factorised in time (compare Diez and Galan 2003; Zhang and Poole 1996, from memory) with the
 * findings summed out as in variable elimination, written for two layers. Example: one finding with leak 0.1 seen, two
 * causes of prior 0.2 and links 0.8 and 0.5: the result is log(0.64 * 0.1 + 0.16 * 0.82 + 0.16 * 0.55 + 0.04 * 0.91).
 */
export function logWeightBySubsets({ places, largest }: SubsetProgramme, weights: CauseWeights): number {
  const states = table("states", largest);
  const present = table("present", largest);
  states[0] = 1;
  let logScale = 0;
  for (const place of places) {
    between(place, states, present, weights.present[place.cause] !== 0);
    logScale += after(place, states, present, weights);
  }
  return logScale + Math.log(states[0] as number);
}

/** The odds of one cause as two sums of non-negative terms, on a scale of their own. */
export interface CauseMass {
  present: number;
  absent: number;
}

/** Weight of the evidence over the causes that findings tie together, and what each of them has of it. */
export interface WeightAndMasses {
  /** Natural log. */
  logWeight: number;
  masses: ReadonlyMap<number, CauseMass>;
}

/**
 * Subset programme, forward and backward: the weight of the evidence, and for every cause the weight of it being
 * present and absent, each pair on a scale of its own (only their ratio has a meaning), as in a hidden Markov chain
 * over the causes.
 */
export function massesBySubsets({ places, largest }: SubsetProgramme, weights: CauseWeights): WeightAndMasses {
  // What a state between closing and opening is worth from there on, with the place's cause absent and present.
  const worths = table("worths", places.reduce((size, { sizeBetween }) => size + 2 * sizeBetween, 0));
  const worthAbsent = table("worth absent", largest);
  const worthPresent = table("worth present", largest);
  worthAbsent[0] = 1;
  let end = 0;
  for (let at = places.length - 1; at >= 0; at--) {
    const place = places[at] as Place;
    const { cause, closing, staying, opening, sizeAfter, sizeBetween } = place;
    copy(worthAbsent, worthPresent, sizeAfter);
    let size = sizeAfter;
    for (let i = opening.length - 1; i >= 0; i--) {
      const turn = opening[i] as Turn;
      sumOut(worthAbsent, size, turn, turn.whenAbsent);
      sumOut(worthPresent, size, turn, turn.whenPresent);
      size /= turn.radix;
    }
    copy(worthAbsent, worths, sizeBetween, end);
    copy(worthPresent, worths, sizeBetween, end + sizeBetween);
    end += 2 * sizeBetween;
    throughAll(staying, worthPresent, size, worthBefore, worthBeforeTwo);
    for (let i = closing.length - 1; i >= 0; i--) {
      const turn = closing[i] as Turn;
      size *= turn.radix;
      bringIn(worthAbsent, size, turn, turn.whenAbsent);
      bringIn(worthPresent, size, turn, turn.whenPresent);
    }
    addInto(worthAbsent, weights.absent[cause] as number, worthPresent, weights.present[cause] as number, size);
  }

  const states = table("states", largest);
  const present = table("present", largest);
  const masses = new Map<number, CauseMass>();
  states[0] = 1;
  let logScale = 0;
  for (const place of places) {
    const { cause, sizeBetween } = place;
    const isPossible = weights.present[cause] !== 0;
    between(place, states, present, isPossible);
    end -= 2 * sizeBetween;
    masses.set(cause, {
      absent: (weights.absent[cause] as number) * dot(states, worths.subarray(end, end + sizeBetween), sizeBetween),
      present: isPossible ? (weights.present[cause] as number) * dot(present, worths.subarray(end + sizeBetween, end + 2 * sizeBetween), sizeBetween) : 0,
    });
    logScale += after(place, states, present, weights);
  }
  return { logWeight: logScale + Math.log(states[0] as number), masses };
}
