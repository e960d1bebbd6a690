import type { World } from "./signals-world";

/** When claims of each cause come: by the age of a unit, and by season. */
export interface Pattern {
  /** Claims with this cause to be expected by now of one unit shipped in this month, by place of the cause and counted month. */
  perUnit(cause: number, month: number): number;
  /** Of them those filed in one month. */
  perUnitIn(cause: number, month: number, filed: number): number;
}

/** First months since shipping of the stretches in which a rate is taken as constant: short while it changes fast (judgement). */
const AGE_STARTS = [0, 1, 2, 3, 4, 6, 9, 12, 18, 24, 36] as const;
const MONTHS_A_YEAR = 12;
const ROUNDS = 2;
/** Claims of no cause have come at an age yet: they are still to be expected a little (Jeffreys). */
const HALF_A_CLAIM = 0.5;
/** A cause that came with nothing but what is left out could still come with the rest: expecting none of it would hide where it came. */
const LEAST_CLAIMS = 1;

/**
 * Finds, cause by cause, how claims depend on the age of a unit and on the season, over everything sold. Ages start from
 * the pattern of all causes together, seasons from none, and either is followed only as far as the claims of the cause
 * spread beyond chance. So young units are not flattered by claims still to come, and what frost does each winter to
 * every kit is expected of each kit.
 *
 * @param leftOut by cause: atoms that are known to go their own way
 */
export function patternOf(world: World, leftOut: readonly ReadonlySet<number>[]): Pattern {
  const { atoms, causes, firstMonth, lastMonth } = world;
  const months = lastMonth - firstMonth + 1;
  const shares = Array.from({ length: months }, (_, place) => world.shareIn(firstMonth + place));
  const stretchOf = Array.from({ length: months }, (_, age) => AGE_STARTS.findLastIndex((start) => start <= age));
  const seasonOf = (filed: number) => filed % MONTHS_A_YEAR;

  const counts = causes.map(() => ({ units: new Float64Array(months), byStretch: new Float64Array(AGE_STARTS.length), bySeason: new Float64Array(MONTHS_A_YEAR), all: 0 }));
  atoms.forEach(({ month, units, claims }, place) => {
    causes.forEach((_, cause) => {
      const counted = counts[cause];
      if (counted && !leftOut[cause]?.has(place)) add(counted.units, month - firstMonth, units);
    });
    for (const { cause, filed, count } of claims) {
      const counted = counts[cause];
      if (!counted || leftOut[cause]?.has(place)) continue;
      add(counted.byStretch, stretchOf[filed - month] ?? 0, count);
      add(counted.bySeason, seasonOf(filed), count);
      counted.all += count;
    }
  });

  /** Units under watch, weighted, at each age and in each season. */
  const exposureOf = (units: Float64Array, rates: Float64Array, seasons: Float64Array) => {
    const byStretch = new Float64Array(AGE_STARTS.length);
    const bySeason = new Float64Array(MONTHS_A_YEAR);
    for (let shipped = 0; shipped < months; shipped += 1)
      for (let age = 0; shipped + age < months; age += 1) {
        const stretch = at(stretchOf, age);
        const season = seasonOf(firstMonth + shipped + age);
        const expected = at(units, shipped) * at(shares, shipped + age) * at(rates, stretch) * at(seasons, season);
        add(byStretch, stretch, expected);
        add(bySeason, season, expected);
      }
    return { byStretch, bySeason };
  };

  const flat = new Float64Array(MONTHS_A_YEAR).fill(1);
  const constant = new Float64Array(AGE_STARTS.length).fill(1);
  const watched = counts.map(({ units }) => exposureOf(units, constant, flat).byStretch);
  const usual = constant.map((_, stretch) => {
    const exposure = watched.reduce((sum, byStretch) => sum + at(byStretch, stretch), 0);
    return exposure > 0 ? counts.reduce((sum, { byStretch }) => sum + at(byStretch, stretch), HALF_A_CLAIM) / exposure : 0;
  });

  const fitted = counts.map(({ units, byStretch, bySeason, all }) => {
    let rates = Float64Array.from(usual);
    let seasons = flat;
    const scale = () => {
      const expected = sumOf(exposureOf(units, rates, seasons).byStretch);
      rates = rates.map((rate) => (expected > 0 ? (rate * Math.max(all, LEAST_CLAIMS)) / expected : 0));
    };
    scale();
    for (let round = 0; round < ROUNDS; round += 1) {
      rates = followed(rates, byStretch, exposureOf(units, rates, seasons).byStretch);
      scale();
      seasons = followed(seasons, bySeason, exposureOf(units, rates, seasons).bySeason);
      scale();
    }
    return { rates, seasons };
  });
  const perUnitIn = (cause: number, month: number, filed: number) => {
    const pattern = fitted[cause];
    return pattern && filed >= month ? at(pattern.rates, at(stretchOf, filed - month)) * at(pattern.seasons, seasonOf(filed)) * at(shares, filed - firstMonth) : 0;
  };
  const summed = causes.map((_, cause) =>
    Float64Array.from({ length: months }, (_month, shipped) => {
      let sum = 0;
      for (let filed = shipped; filed < months; filed += 1) sum += perUnitIn(cause, firstMonth + shipped, firstMonth + filed);
      return sum;
    }),
  );
  return { perUnit: (cause, month) => summed[cause]?.[month - firstMonth] ?? 0, perUnitIn };
}

/** Moves each factor towards what was counted, the more so the further the counts spread beyond chance. */
function followed(factors: Float64Array, counts: Float64Array, expected: Float64Array): Float64Array<ArrayBuffer> {
  const strength = strengthOf([...counts].map((count, place) => ({ count, expected: at(expected, place) })));
  return Float64Array.from(factors, (factor, place) => factor * drawn(at(counts, place), at(expected, place), strength));
}

/** No spread beyond chance can be told. */
const FIRM = 1e9;

/**
 * How firmly counts keep to what is expected of them: as many expected events as weigh as much as those seen. By the
 * method of moments: squared misses beyond those of counting, against the squares of the expected.
 */
export function strengthOf(cells: Iterable<{ count: number; expected: number }>): number {
  let beyondChance = 0;
  let squares = 0;
  for (const { count, expected } of cells) {
    beyondChance += (count - expected) ** 2 - expected;
    squares += expected ** 2;
  }
  return beyondChance > 0 ? Math.min(FIRM, Math.max(LEAST_STRENGTH, squares / beyondChance)) : FIRM;
}

/** However far cells spread, half an event is expected to go as usual. */
const LEAST_STRENGTH = 0.5;

/** How many times the expected, drawn towards 1 by the strength. */
export function drawn(count: number, expected: number, strength: number): number {
  return (count + strength) / (expected + strength);
}

function add(sums: Float64Array, place: number, amount: number): void {
  sums[place] = (sums[place] ?? 0) + amount;
}
function at(values: ArrayLike<number>, place: number): number {
  return values[place] ?? 0;
}
function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}
