/** A sum that keeps the digits that plain adding drops (Neumaier 1974, from memory), so that the oracle is no worse than what it judges. */
class ExactSum {
  private sum = 0;
  private dropped = 0;
  add(value: number): void {
    const next = this.sum + value;
    this.dropped += Math.abs(this.sum) >= Math.abs(value) ? this.sum - next + value : value - next + this.sum;
    this.sum = next;
  }
  get total(): number {
    return this.sum + this.dropped;
  }
}

/**
 * The definition of a posterior, summed over every joint state: for each variable how many states it has, for each joint
 * state its weight. Returns the weight of them all, and of each state of each variable. Nothing of the engine is used.
 */
export function sumOverStates(sizes: readonly number[], weightOf: (states: readonly number[]) => number): { total: number; of: number[][] } {
  const total = new ExactSum();
  const sums = sizes.map((size) => Array.from({ length: size }, () => new ExactSum()));
  const states = sizes.map(() => 0);
  for (let left = sizes.reduce((product, size) => product * size, 1); left > 0; left--) {
    const weight = weightOf(states);
    total.add(weight);
    for (const [variable, state] of states.entries()) sums[variable]?.[state]?.add(weight);
    // The next joint state, counted up like the digits of a number.
    for (let variable = 0; variable < sizes.length; variable++) {
      states[variable] = ((states[variable] ?? 0) + 1) % (sizes[variable] ?? 1);
      if (states[variable] !== 0) break;
    }
  }
  return { total: total.total, of: sums.map((each) => each.map((sum) => sum.total)) };
}

/** The same for causes that are there or not; odds stay exact, the two sides being summed apart. */
export function sumOverCauses(causes: number, weightOf: (isThere: readonly number[]) => number) {
  const { total, of } = sumOverStates(Array<number>(causes).fill(2), weightOf);
  return {
    total,
    present: of.map(([, there]) => (there ?? Number.NaN) / total),
    absent: of.map(([not]) => (not ?? Number.NaN) / total),
  };
}
