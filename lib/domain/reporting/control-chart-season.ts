import { chiSquarePValue } from "../statistics/chi-square-test";
import type { Counted } from "../statistics/u-chart";
import type { Month } from "./month";

export interface CountedMonth extends Counted {
  month: Month;
}

export type Season =
  | {
      kind: "season";
      /** How many times the year's mean, for January to December. */
      factors: readonly number[];
      /** January being 1. */
      peak: number;
      trough: number;
      /** Claims at the peak for each at the trough. */
      ratio: number;
      years: number;
      pValue: number;
    }
  /** Nothing that comes back each year beyond chance. */
  | { kind: "none"; years: number }
  /** Under two whole years: a season cannot be told from a change. */
  | { kind: "too-short"; years: number };

const MONTHS_A_YEAR = 12;
/** Chance at which what comes back each year is no longer put down to chance. */
const SIGNIFICANT = 0.01;
/** Standard errors by which the years without any one of them must show the wave of that one: one in fifty by chance (judgement). */
const BY_THE_REST = 2.05;
/** Standard errors by which each single year must agree with the others: one in ten by chance (judgement). */
const AGREEING = 1.28;

/**
 * Whether claims come with the season, so that a winter is not taken for a change: one wave a year in the logarithm of the
 * rate, each year at its own level. It must stand out over all years together and, whichever year is left out, in the rest at
 * that year's time; a change happens in one year only. Each year must show it by itself too, but for one with so few claims
 * that a wave like that of the others would stay hidden in it in more than one of ten cases: that one may not speak against it.
 *
 * Source: the score test of a Poisson log-linear model with one annual harmonic, after J. H. Edwards, "The recognition and
 * estimation of cyclic trends", Annals of Human Genetics 25 (1961) (from memory); that years must agree is our judgement.
 *
 * @param months in order, without a gap
 * @param widening how many times wider months spread than counts alone would
 * @example thirty-six months with three times as many claims each winter: a season with its peak in winter
 */
export function seasonOf(months: readonly CountedMonth[], widening: number): Season {
  const years = Math.floor(months.length / MONTHS_A_YEAR);
  if (years < 2) return { kind: "too-short", years };
  const blocks = Array.from({ length: years }, (_, year) => levelled(months.slice(months.length - (year + 1) * MONTHS_A_YEAR, months.length - year * MONTHS_A_YEAR)));
  const spread = Math.max(1, widening);
  const waves = blocks.map(scoreOf);
  const all = waves.reduce(added, NO_SCORE);
  const determinant = all.cosCos * all.sinSin - all.cosSin ** 2;
  if (!(determinant > 0)) return { kind: "none", years };
  const score = (all.sinSin * all.cos ** 2 - 2 * all.cosSin * all.cos * all.sin + all.cosCos * all.sin ** 2) / determinant;
  const pValue = chiSquarePValue(Math.max(0, score) / spread ** 2, 2);
  const without = (year: number) => waves.filter((_, other) => other !== year).reduce(added, NO_SCORE);
  const agrees = waves.every((own, year) => {
    const others = without(year);
    const towards = direction(others);
    const [mine, theirs] = [along(own, towards), along(others, towards)];
    if (!(mine.information > 0)) return true;
    const error = Math.sqrt(mine.information) / spread;
    const found = (mine.slope / mine.information) * error;
    const due = (theirs.slope / theirs.information) * error;
    return found > AGREEING || (found > -AGREEING && due < 2 * AGREEING);
  });
  const isOfOneYear = waves.some((own, year) => {
    const rest = along(without(year), direction(own));
    return !(rest.information > 0 && rest.slope / Math.sqrt(rest.information) / spread > BY_THE_REST);
  });
  if (pValue > SIGNIFICANT || isOfOneYear || !agrees) return { kind: "none", years };
  const factors = factorsOf(blocks.flat());
  const peak = factors.indexOf(Math.max(...factors));
  const trough = factors.indexOf(Math.min(...factors));
  return { kind: "season", factors, peak: peak + 1, trough: trough + 1, ratio: (factors[peak] ?? 1) / (factors[trough] ?? 1), years, pValue };
}

/** How many times the usual a month of the year brings; 1 where there is no season. */
export function seasonFactor(season: Season, month: Month): number {
  return season.kind === "season" ? (season.factors[Number(month.slice(5)) - 1] ?? 1) : 1;
}

/** A month against what its year's level leads to expect. */
interface Levelled {
  angle: number;
  count: number;
  expected: number;
}

function levelled(year: readonly CountedMonth[]): readonly Levelled[] {
  const exposed = year.filter(({ size }) => size > 0);
  const count = exposed.reduce((sum, month) => sum + month.count, 0);
  const size = exposed.reduce((sum, month) => sum + month.size, 0);
  return exposed.map((month) => ({ angle: angleOf(Number(month.month.slice(5)) - 1), count: month.count, expected: (count * month.size) / size }));
}

const angleOf = (monthOfYear: number) => (2 * Math.PI * monthOfYear) / MONTHS_A_YEAR;

interface Score {
  cos: number;
  sin: number;
  cosCos: number;
  cosSin: number;
  sinSin: number;
}
const NO_SCORE: Score = { cos: 0, sin: 0, cosCos: 0, cosSin: 0, sinSin: 0 };

/** Slope of the log likelihood towards a wave, with its information, the year's own level being free. */
function scoreOf(months: readonly Levelled[]): Score {
  const total = months.reduce((sum, { expected }) => sum + expected, 0);
  if (!(total > 0)) return NO_SCORE;
  const mean = (of: (angle: number) => number) => months.reduce((sum, { angle, expected }) => sum + expected * of(angle), 0) / total;
  const [meanCos, meanSin] = [mean(Math.cos), mean(Math.sin)];
  return months.reduce((sum, { angle, count, expected }) => {
    const [cos, sin] = [Math.cos(angle) - meanCos, Math.sin(angle) - meanSin];
    return added(sum, { cos: (count - expected) * cos, sin: (count - expected) * sin, cosCos: expected * cos * cos, cosSin: expected * cos * sin, sinSin: expected * sin * sin });
  }, NO_SCORE);
}

function added(a: Score, b: Score): Score {
  return { cos: a.cos + b.cos, sin: a.sin + b.sin, cosCos: a.cosCos + b.cosCos, cosSin: a.cosSin + b.cosSin, sinSin: a.sinSin + b.sinSin };
}

/** The same along one direction alone. */
function along({ cos, sin, cosCos, cosSin, sinSin }: Score, [toCos, toSin]: readonly [number, number]): { slope: number; information: number } {
  return { slope: cos * toCos + sin * toSin, information: cosCos * toCos ** 2 + 2 * cosSin * toCos * toSin + sinSin * toSin ** 2 };
}

/** Where the wave points, as a step of length 1. */
function direction({ cos, sin, cosCos, cosSin, sinSin }: Score): readonly [number, number] {
  const step: readonly [number, number] = [sinSin * cos - cosSin * sin, cosCos * sin - cosSin * cos];
  const length = Math.hypot(...step);
  return length > 0 ? [step[0] / length, step[1] / length] : [1, 0];
}

const ROUNDS = 50;
/** A wave steeper than this is that of a cause that only one half of the year knows. */
const STEEPEST = 4;

/** The fitted wave, its twelve months brought to a mean of 1. */
function factorsOf(months: readonly Levelled[]): readonly number[] {
  let [byCos, bySin] = [0, 0];
  for (let round = 0; round < ROUNDS; round += 1) {
    const waved = months.map((month) => ({ ...month, expected: month.expected * Math.exp(byCos * Math.cos(month.angle) + bySin * Math.sin(month.angle)) }));
    const count = waved.reduce((sum, month) => sum + month.count, 0);
    const expected = waved.reduce((sum, month) => sum + month.expected, 0);
    const { cos, sin, cosCos, cosSin, sinSin } = scoreOf(waved.map((month) => ({ ...month, expected: (month.expected * count) / expected })));
    const determinant = cosCos * sinSin - cosSin ** 2;
    if (!(determinant > 1e-12)) break;
    const step = [(sinSin * cos - cosSin * sin) / determinant, (cosCos * sin - cosSin * cos) / determinant] as const;
    const part = Math.min(1, 1 / Math.max(Math.hypot(...step), 1e-300));
    byCos += part * step[0];
    bySin += part * step[1];
    const steepness = Math.hypot(byCos, bySin);
    if (steepness > STEEPEST) [byCos, bySin] = [(byCos * STEEPEST) / steepness, (bySin * STEEPEST) / steepness];
    if (Math.hypot(...step) < 1e-9) break;
  }
  const wave = Array.from({ length: MONTHS_A_YEAR }, (_, month) => Math.exp(byCos * Math.cos(angleOf(month)) + bySin * Math.sin(angleOf(month))));
  const mean = wave.reduce((sum, factor) => sum + factor, 0) / MONTHS_A_YEAR;
  return wave.map((factor) => factor / mean);
}
