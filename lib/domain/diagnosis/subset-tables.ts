// Passes over the tables of a subset programme. Reads of typed arrays stay inside their bounds; `as number` says so to the compiler.

/** A weight for each value of a digit: off, on, and (with inhibitors) suppressed. */
export type DigitWeights = readonly [off: number, on: number, suppressed: number];

/** What one cause does to one open finding, whose digit stands at a stride in the table of states. */
export interface Turn {
  stride: number;
  /** 2, or 3 for a finding with inhibitors. */
  radix: number;
  /** Chance that the cause switches it on, and that it suppresses it. */
  strength: number;
  inhibitor: number;
  /** Where the finding opens or closes: weights of the digit with the cause absent, and present. */
  whenAbsent: DigitWeights;
  whenPresent: DigitWeights;
}

/** Sums one digit out of a table, in place. */
export function sumOut(table: Float64Array, size: number, { stride, radix }: Turn, [off, on, suppressed]: DigitWeights): void {
  let to = 0;
  for (let block = 0; block < size; block += stride * radix) {
    for (let from = block; from < block + stride; from++, to++) {
      let sum = off * (table[from] as number) + on * (table[from + stride] as number);
      if (radix === 3) sum += suppressed * (table[from + 2 * stride] as number);
      table[to] = sum;
    }
  }
}

/** Gives a table one more digit, in place; `size` is that of the larger table. */
export function bringIn(table: Float64Array, size: number, { stride, radix }: Turn, [off, on, suppressed]: DigitWeights): void {
  let from = size / radix - 1;
  for (let block = size - stride * radix; block >= 0; block -= stride * radix) {
    for (let to = block + stride - 1; to >= block; to--, from--) {
      const value = table[from] as number;
      if (radix === 3) table[to + 2 * stride] = suppressed * value;
      table[to + stride] = on * value;
      table[to] = off * value;
    }
  }
}

/** Carries the states through the cause being there: it may switch each finding that stays open on. */
export function switchOn(table: Float64Array, size: number, { stride, radix, strength, inhibitor }: Turn): void {
  const spared = 1 - inhibitor;
  const leftOff = (1 - strength) * spared;
  const switchedOn = strength * spared;
  for (let block = 0; block < size; block += stride * radix) {
    for (let state = block; state < block + stride; state++) {
      const off = table[state] as number;
      const on = table[state + stride] as number;
      table[state] = leftOff * off;
      table[state + stride] = spared * on + switchedOn * off;
      if (radix === 3) table[state + 2 * stride] = (table[state + 2 * stride] as number) + inhibitor * (off + on);
    }
  }
}

/** The same for two findings without inhibitors at once, the smaller stride first: half as many passes over the table. */
export function switchTwoOn(table: Float64Array, size: number, { stride, strength }: Turn, { stride: wide, strength: other }: Turn): void {
  const leftOff = 1 - strength;
  const otherLeftOff = 1 - other;
  for (let outer = 0; outer < size; outer += 2 * wide) {
    for (let block = outer; block < outer + wide; block += 2 * stride) {
      for (let state = block; state < block + stride; state++) {
        const neither = table[state] as number;
        const upper = table[state + wide] as number;
        const one = (table[state + stride] as number) + strength * neither;
        const both = (table[state + wide + stride] as number) + strength * upper;
        table[state] = otherLeftOff * leftOff * neither;
        table[state + stride] = otherLeftOff * one;
        table[state + wide] = leftOff * (upper + other * neither);
        table[state + wide + stride] = both + other * one;
      }
    }
  }
}

/** The same read backwards: what a state is worth before the cause, from its worth after it. */
export function worthBefore(table: Float64Array, size: number, { stride, radix, strength, inhibitor }: Turn): void {
  const spared = 1 - inhibitor;
  const leftOff = (1 - strength) * spared;
  const switchedOn = strength * spared;
  for (let block = 0; block < size; block += stride * radix) {
    for (let state = block; state < block + stride; state++) {
      const on = table[state + stride] as number;
      const suppressed = radix === 3 ? inhibitor * (table[state + 2 * stride] as number) : 0;
      table[state] = leftOff * (table[state] as number) + switchedOn * on + suppressed;
      table[state + stride] = spared * on + suppressed;
    }
  }
}

/** And that for two findings without inhibitors at once. */
export function worthBeforeTwo(table: Float64Array, size: number, { stride, strength }: Turn, { stride: wide, strength: other }: Turn): void {
  const leftOff = 1 - strength;
  const otherLeftOff = 1 - other;
  for (let outer = 0; outer < size; outer += 2 * wide) {
    for (let block = outer; block < outer + wide; block += 2 * stride) {
      for (let state = block; state < block + stride; state++) {
        const one = table[state + stride] as number;
        const both = table[state + wide + stride] as number;
        const neither = leftOff * (table[state] as number) + strength * one;
        const upper = leftOff * (table[state + wide] as number) + strength * both;
        table[state] = otherLeftOff * neither + other * upper;
        table[state + stride] = otherLeftOff * one + other * both;
        table[state + wide] = upper;
      }
    }
  }
}

type OnePass = (table: Float64Array, size: number, turn: Turn) => void;
type TwoPass = (table: Float64Array, size: number, turn: Turn, wider: Turn) => void;

/** All findings that stay open, two in a pass where neither has inhibitors. */
export function throughAll(staying: readonly Turn[], table: Float64Array, size: number, one: OnePass, two: TwoPass): void {
  for (let i = 0; i < staying.length; i++) {
    const turn = staying[i] as Turn;
    const next = staying[i + 1];
    if (turn.radix === 2 && next?.radix === 2) {
      two(table, size, turn, next);
      i++;
    } else one(table, size, turn);
  }
}

/** A table that has fallen this low is brought up again, so that long products never underflow. */
const LOW = 1e-60;

/** Adds two tables, each with its weight, into the first; returns the log of the scale taken out. */
export function addInto(absent: Float64Array, weightAbsent: number, present: Float64Array, weightPresent: number, size: number): number {
  let largest = 0;
  for (let state = 0; state < size; state++) {
    const sum = weightAbsent * (absent[state] as number) + weightPresent * (present[state] as number);
    absent[state] = sum;
    if (sum > largest) largest = sum;
  }
  if (largest >= LOW) return 0;
  if (largest === 0) return Number.NEGATIVE_INFINITY;
  for (let state = 0; state < size; state++) absent[state] = (absent[state] as number) / largest;
  return Math.log(largest);
}

/** In two sums side by side: neither waits for the other, and both keep more digits. */
export function dot(left: Float64Array, right: Float64Array, size: number): number {
  let even = 0;
  let odd = 0;
  for (let state = 0; state + 1 < size; state += 2) {
    even += (left[state] as number) * (right[state] as number);
    odd += (left[state + 1] as number) * (right[state + 1] as number);
  }
  return size % 2 === 0 ? even + odd : even + odd + (left[size - 1] as number) * (right[size - 1] as number);
}

/** From here on the platform's own copy is worth the call. */
const LARGE = 256;

export function copy(from: Float64Array, to: Float64Array, size: number, at = 0): void {
  if (size >= LARGE) to.set(from.subarray(0, size), at);
  else for (let state = 0; state < size; state++) to[at + state] = from[state] as number;
}

/** Tables kept between calls: a ranking asks some hundred times in a row. */
const kept = new Map<string, Float64Array>();
export function table(name: string, size: number): Float64Array {
  const before = kept.get(name);
  if (before && before.length >= size) return before;
  const made = new Float64Array(size);
  // Large tables are rare; keeping them would hold tens of megabytes for nothing.
  if (size <= 2 ** 17) kept.set(name, made);
  return made;
}
