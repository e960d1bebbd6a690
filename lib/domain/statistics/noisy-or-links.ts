/** How often a finding was there and not there, with these causes confirmed. Counts need not be whole. */
export interface LinkRow {
  /** Places of the causes that were there. */
  causes: readonly number[];
  present: number;
  absent: number;
}

export interface NoisyOrLinks {
  /** Chance of the finding with none of the causes. */
  leak: number;
  /** Chance that the cause alone switches it on, in the order of the causes. */
  links: readonly number[];
  /** Standard errors of log(1 - leak) and of log(1 - link), the leak's first. */
  logComplementStdErrors: readonly number[];
  /** Without the binomial coefficients. */
  logLikelihood: number;
}

const MOST_STEPS = 100;
/** log(1 - chance) stays below this: a chance of nothing is a chance of 1e-9. */
const NEAREST_TO_NEVER = -1e-9;
/** And above this, a chance of all but 1e-9. */
const NEAREST_TO_ALWAYS = -20.7;

/**
 * Leak and links of a noisy-or finding from cases whose causes are confirmed. The logarithm of its chance to be ABSENT is
 * a sum, log(1 - leak) + sum of log(1 - link): a binomial regression with log link, concave, and no guessing of what
 * caused what. Coefficients stay at or below 0, which only bounds each chance to 0..1.
 *
 * Fisher scoring with the coefficients at their bound held there while the slope pushes outwards. Source: noisy-or as a
 * generalised linear model (see McCullagh and Nelder 1989, from memory); checked against R's glm.
 *
 * @param causes how many causes the rows speak of
 * @example 4 of 80 with no cause there and 31 of 45 with one give a leak of 0.05 and a link of 1 - (14 / 45) / 0.95 = 0.67
 * @throws without a row
 */
export function fitNoisyOrLinks(rows: readonly LinkRow[], causes: number): NoisyOrLinks {
  if (rows.length === 0) throw new Error("fitNoisyOrLinks needs at least one row");
  const size = causes + 1;
  const coefficients = new Float64Array(size).fill(-0.1);
  const placesOf = rows.map((row) => [0, ...row.causes.map((cause) => cause + 1)]);
  const sumOf = (values: Float64Array, places: readonly number[]) => places.reduce((sum, place) => sum + (values[place] ?? 0), 0);
  const logLikelihoodAt = (values: Float64Array) =>
    rows.reduce((sum, { present, absent }, row) => {
      const eta = sumOf(values, placesOf[row] ?? []);
      return sum + absent * eta + (present > 0 ? present * Math.log(-Math.expm1(eta)) : 0);
    }, 0);

  let reached = logLikelihoodAt(coefficients);
  let information = new Float64Array(size * size);
  for (let step = 0; step < MOST_STEPS; step++) {
    const slope = new Float64Array(size);
    information = new Float64Array(size * size);
    rows.forEach(({ present, absent }, row) => {
      const places = placesOf[row] ?? [];
      const chanceAbsent = Math.exp(sumOf(coefficients, places));
      const odds = chanceAbsent / -Math.expm1(sumOf(coefficients, places));
      const pull = absent - present * odds;
      const weight = (present + absent) * odds;
      for (const i of places) {
        slope[i] = (slope[i] ?? 0) + pull;
        for (const j of places) information[i * size + j] = (information[i * size + j] ?? 0) + weight;
      }
    });
    const isHeld = (i: number) => {
      const value = coefficients[i] ?? 0;
      return (value >= NEAREST_TO_NEVER && (slope[i] ?? 0) > 0) || (value <= NEAREST_TO_ALWAYS && (slope[i] ?? 0) < 0);
    };
    const free = Array.from({ length: size }, (_, i) => i).filter((i) => !isHeld(i));
    const change = solve(
      free.map((i) => free.map((j) => information[i * size + j] ?? 0)),
      free.map((i) => slope[i] ?? 0),
    );
    let isBetter = false;
    let moved = 0;
    for (let share = 1; share > 1e-10 && !isBetter; share /= 2) {
      const tried = Float64Array.from(coefficients);
      free.forEach((i, place) => {
        tried[i] = Math.min(NEAREST_TO_NEVER, Math.max(NEAREST_TO_ALWAYS, (tried[i] ?? 0) + share * (change[place] ?? 0)));
      });
      const there = logLikelihoodAt(tried);
      isBetter = there >= reached;
      if (!isBetter) continue;
      moved = Math.max(0, ...tried.map((value, i) => Math.abs(value - (coefficients[i] ?? 0))));
      coefficients.set(tried);
      reached = there;
    }
    if (!isBetter || moved < 1e-12) break;
  }

  const all = Array.from({ length: size }, (_, i) => Array.from({ length: size }, (__, j) => information[i * size + j] ?? 0));
  const [leak = 0, ...links] = [...coefficients].map((value) => -Math.expm1(value));
  return {
    leak,
    links,
    logComplementStdErrors: all.map((_, i) => Math.sqrt(solve(all, all.map((__, j) => (i === j ? 1 : 0)))[i] ?? 0)),
    logLikelihood: reached,
  };
}

/** Solves a symmetric positive system by Cholesky's method; a direction nothing is known of stays at 0. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const size = right.length;
  const lower = matrix.map((row) => [...row]);
  const at = (i: number, j: number) => lower[i]?.[j] ?? 0;
  const put = (i: number, j: number, value: number) => {
    const row = lower[i];
    if (row) row[j] = value;
  };
  for (let j = 0; j < size; j++) {
    let pivot = at(j, j);
    for (let k = 0; k < j; k++) pivot -= at(j, k) ** 2;
    const root = pivot > 1e-14 * (matrix[j]?.[j] ?? 0) && pivot > 0 ? Math.sqrt(pivot) : 0;
    put(j, j, root);
    for (let i = j + 1; i < size; i++) {
      let sum = at(i, j);
      for (let k = 0; k < j; k++) sum -= at(i, k) * at(j, k);
      put(i, j, root === 0 ? 0 : sum / root);
    }
  }
  const solution = [...right];
  for (let i = 0; i < size; i++) {
    let sum = solution[i] ?? 0;
    for (let k = 0; k < i; k++) sum -= at(i, k) * (solution[k] ?? 0);
    solution[i] = at(i, i) === 0 ? 0 : sum / at(i, i);
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = solution[i] ?? 0;
    for (let k = i + 1; k < size; k++) sum -= at(k, i) * (solution[k] ?? 0);
    solution[i] = at(i, i) === 0 ? 0 : sum / at(i, i);
  }
  return solution;
}
