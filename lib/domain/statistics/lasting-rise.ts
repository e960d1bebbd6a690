import { poissonCusum, startOfRise } from "./poisson-cusum";
import { atLeastOfUncertain } from "./predictive-count";

/** What came in a month, and what was to be expected of it if nothing had changed. */
export interface ExpectedCount {
  count: number;
  expected: number;
}

export interface LastingRise {
  /** Events beyond what is allowed, added up and never below 0. */
  sums: readonly number[];
  /** Chance of a last sum at least as high if nothing has changed. */
  chance: number;
  /** Place of the month from which on the sum has risen; null while it is 0. */
  likelyStart: number | null;
}

/**
 * Whether events come more often since some month, whichever it is, and still do: the last value of their cumulative
 * sum, with its exact chance. The chance takes in that the start was looked for, and how well the expected is known: the
 * true level is a gamma about it, of which every month tells more.
 *
 * Source: the sum of J. M. Lucas, "Counted data CUSUM's" (1985); its chance by adding up month by month, from the newest
 * back, how many events there are so far and whether they reach the line yet, as M. Kulldorff and others find limits for
 * their sequential test (2011) (from memory; checked against a simulation).
 *
 * @param months oldest first
 * @param relativeVariance square of the standard error of what is expected, in parts of it
 * @param raisedRatio the rise to be found soonest
 * @example lastingRise([{ count: 0, expected: 2 }, { count: 6, expected: 2 }], { relativeVariance: 0, raisedRatio: 2 }).chance // 0.0310
 */
export function lastingRise(months: readonly ExpectedCount[], { relativeVariance, raisedRatio }: { relativeVariance: number; raisedRatio: number }): LastingRise {
  const { allowedRate: allowed, sums } = poissonCusum(
    months.map(({ count, expected }) => ({ count, exposure: expected })),
    { usualRate: 1, raisedRate: raisedRatio, limit: Number.POSITIVE_INFINITY },
  );
  const last = sums.at(-1) ?? 0;
  if (!(last > 0)) return { sums, chance: 1, likelyStart: null };
  const likelyStart = startOfRise(sums, sums.length - 1);
  const since = months.slice(likelyStart);
  const rise = { count: since.reduce((sum, { count }) => sum + count, 0), expected: since.reduce((sum, { expected }) => sum + expected, 0) };
  // One month to start from is the least that can be asked, and all digits of it are known.
  const atLeast = rise.expected > 0 ? atLeastOfUncertain(rise.count, rise.expected, relativeVariance) : 0;
  return { sums, chance: Math.max(atLeast, chanceOfSum(last, months, allowed, relativeVariance)), likelyStart };
}

/** Up to so many expected events each way in which they can come is followed. */
const MOST_FOLLOWED = 4000;
/** Ways of coming about that are rarer than this are left out. */
const NEGLIGIBLE = 1e-12;

/** Chance that, from some month on, at least `sum` events more came than are allowed. */
function chanceOfSum(sum: number, months: readonly ExpectedCount[], allowed: number, relativeVariance: number): number {
  let expectedSoFar = 0;
  const newestFirst = months
    .toReversed()
    .filter(({ expected }) => expected > 0)
    .map(({ expected }) => {
      const before = expectedSoFar;
      expectedSoFar += expected;
      return { expected, before, line: Math.ceil(sum + allowed * expectedSoFar - 1e-9) };
    });
  // The starts one by one, as if they excluded each other: never too low.
  if (expectedSoFar > MOST_FOLLOWED) return Math.min(1, newestFirst.reduce((chance, { expected, before, line }) => chance + atLeastOfUncertain(line, before + expected, relativeVariance), 0));

  const shape = Math.min(1e9, 1 / relativeVariance);
  let reached = 0;
  /** By number of events so far: the chance of it without having reached the line. */
  let below = new Float64Array([1]);
  for (const { expected, before, line } of newestFirst) {
    const next = new Float64Array(line);
    below.forEach((chance, events) => {
      if (chance < NEGLIGIBLE) return;
      const { fewest, chances } = chancesOf(shape + events, expected / (shape + before));
      chances.forEach((part, more) => {
        const total = events + fewest + more;
        if (total >= line) reached += chance * part;
        else next[total] = (next[total] ?? 0) + chance * part;
      });
    });
    below = next;
  }
  return Math.min(1, reached);
}

/** Chances of so many events, of which `ratio` times a gamma of this shape are expected: from the likeliest both ways. */
function chancesOf(shape: number, ratio: number): { fewest: number; chances: readonly number[] } {
  const toNext = (count: number) => (((shape + count) / (count + 1)) * ratio) / (1 + ratio);
  const likeliest = Math.max(0, Math.floor((shape - 1) * ratio));
  const fewer: number[] = [];
  for (let count = likeliest, weight = 1; count > 0 && weight > NEGLIGIBLE; count -= 1) {
    weight /= toNext(count - 1);
    fewer.push(weight);
  }
  const weights = [...fewer.reverse(), 1];
  for (let count = likeliest, weight = 1; weight > NEGLIGIBLE / 1000; count += 1) {
    weight *= toNext(count);
    weights.push(weight);
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return { fewest: likeliest - fewer.length, chances: weights.map((weight) => weight / total) };
}
