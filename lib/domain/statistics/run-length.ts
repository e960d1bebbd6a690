import gammaln from "@stdlib/math-base-special-gammaln";
import { normalProbability } from "./normal";
import { allowedRatio } from "./poisson-cusum";

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

/**
 * The same for the cumulative sum of counts, in months, with the same expected count each month. A sum that falls between
 * two states is shared between them, which spreads it a little: the true run is rather longer than told.
 *
 * @param expected count a month when nothing is wrong
 * @param ratio by how much the true rate exceeds the usual one
 */
export function poissonCusumRunLength({ expected, raisedRatio, limit }: { expected: number; raisedRatio: number; limit: number }, ratio = 1): number {
  if (!(expected > 0 && raisedRatio > 1 && limit >= 0)) throw new Error("poissonCusumRunLength needs an expected count above 0 and a raised ratio above 1");
  const allowed = expected * allowedRatio(raisedRatio);
  const mean = expected * ratio;
  const width = limit / (STATES - 1) || 1;
  const states = limit > 0 ? STATES : 1;
  const chances = Array.from({ length: Math.ceil(limit + allowed) + 2 }, (_, count) => Math.exp(count * Math.log(mean) - mean - gammaln(count + 1)));
  const rows = Array.from({ length: states }, (_, from) => {
    const row = new Float64Array(states);
    chances.forEach((chance, count) => {
      const sum = Math.max(0, from * width + count - allowed);
      if (sum > limit) return;
      const below = Math.min(states - 1, Math.floor(sum / width + 1e-9));
      const part = Math.min(1, Math.max(0, sum / width - below));
      row[below] = (row[below] ?? 0) + chance * (1 - part);
      if (below + 1 < states) row[below + 1] = (row[below + 1] ?? 0) + chance * part;
    });
    return row;
  });
  return meanStepsToLeave(states, 0, (from, to) => rows[from]?.[to] ?? 0);
}

/**
 * The limit at which a cumulative sum of counts gives a false alarm once in so many months.
 *
 * @example poissonCusumLimit({ expected: 2, raisedRatio: 3, falseAlarmEveryMonths: 120 })
 */
export function poissonCusumLimit({ expected, raisedRatio, falseAlarmEveryMonths }: { expected: number; raisedRatio: number; falseAlarmEveryMonths: number }): number {
  const runLength = (limit: number) => poissonCusumRunLength({ expected, raisedRatio, limit });
  let low = 0;
  let high = 1;
  while (runLength(high) < falseAlarmEveryMonths) {
    low = high;
    high *= 2;
  }
  while (high - low > 0.005) {
    const middle = (low + high) / 2;
    if (runLength(middle) < falseAlarmEveryMonths) low = middle;
    else high = middle;
  }
  return high;
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
