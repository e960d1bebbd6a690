import digamma from "@stdlib/math-base-special-digamma";
import gammaln from "@stdlib/math-base-special-gammaln";
import trigamma from "@stdlib/math-base-special-trigamma";
import type { GammaPrior } from "./gamma-poisson";
import { homogeneity } from "./homogeneity";
import type { Rate } from "./rate-ratio";

/** What a set of rates says about how rates spread. */
export type GammaPoissonFit =
  | { kind: "fitted"; prior: GammaPrior; logLikelihood: number }
  /** They differ no more than by chance: the likelihood has no maximum, and one rate stands for all. */
  | { kind: "not-overdispersed"; pooledRate: number; chiSquare: number; degreesOfFreedom: number }
  | { kind: "nothing-happened" };

/**
 * Fits the gamma distribution of the rates by the likelihood of the counts, which are negative binomial: Newton's method
 * in the logarithms of shape and rate, each step halved until it gains.
 *
 * Source: D. Clayton and J. Kaldor, Biometrics 43 (1987) (from memory; checked against R's optim and MASS::glm.nb).
 *
 * @example fitGammaPoisson(tenPumps) // shape 0.822, rate 1.259
 */
export function fitGammaPoisson(rates: readonly Rate[]): GammaPoissonFit {
  const exposed = rates.filter(({ exposure }) => exposure > 0);
  const count = exposed.reduce((sum, rate) => sum + rate.count, 0);
  const exposure = exposed.reduce((sum, rate) => sum + rate.exposure, 0);
  if (count === 0) return { kind: "nothing-happened" };
  const pooledRate = count / exposure;

  // The slope of the likelihood where the spread is nil: only above 0 does a spread make the counts more likely.
  const excess = exposed.reduce((sum, rate) => sum + (rate.count - pooledRate * rate.exposure) ** 2 - rate.count, 0);
  const test = homogeneity(exposed);
  const degenerate: GammaPoissonFit = { kind: "not-overdispersed", pooledRate, chiSquare: test?.chiSquare ?? 0, degreesOfFreedom: test?.degreesOfFreedom ?? 0 };
  if (excess <= 0 || !test) return degenerate;

  const squares = exposed.reduce((sum, rate) => sum + (pooledRate * rate.exposure) ** 2, 0);
  const startShape = Math.min(LARGEST_SHAPE / 2, Math.max(1e-3, squares / excess));
  let at = likelihoodAt(exposed, Math.log(startShape), Math.log(startShape / pooledRate));
  for (let round = 0; round < 200; round += 1) {
    const [stepShape, stepRate] = newtonStep(at);
    let next: Likelihood | null = null;
    for (let part = 1; part > 1e-9 && !next; part /= 2) {
      const tried = likelihoodAt(exposed, at.logShape + part * stepShape, at.logRate + part * stepRate);
      if (tried.value >= at.value) next = tried;
    }
    if (!next) break;
    const moved = Math.abs(next.logShape - at.logShape) + Math.abs(next.logRate - at.logRate);
    at = next;
    if (moved < 1e-10) break;
  }
  const shape = Math.exp(at.logShape);
  if (!(shape < LARGEST_SHAPE)) return degenerate;
  return { kind: "fitted", prior: { shape, rate: Math.exp(at.logRate) }, logLikelihood: at.value };
}

/** From this shape on the rates spread by less than a hundredth: no data of ours can tell that from one rate. */
const LARGEST_SHAPE = 1e4;

/** Fewer cells say too little about their spread to fit it. */
export const FEWEST_CELLS_TO_FIT = 8;
/** A spread as wide as the mean over the root of two, for what is too little to fit (judgement). */
const USUAL_SHAPE = 2;

/**
 * The prior to shrink a set of cells with, and what it rests on.
 *
 * @returns null where nothing happened in any
 */
export function priorOf(rates: readonly Rate[]): { prior: GammaPrior; basis: "fitted" | "usual-spread" | "one-rate-for-all" } | null {
  const exposed = rates.filter(({ exposure }) => exposure > 0);
  const fit = fitGammaPoisson(exposed);
  if (fit.kind === "nothing-happened") return null;
  if (exposed.length < FEWEST_CELLS_TO_FIT) {
    const pooledRate = exposed.reduce((sum, { count }) => sum + count, 0) / exposed.reduce((sum, { exposure }) => sum + exposure, 0);
    return { prior: { shape: USUAL_SHAPE, rate: USUAL_SHAPE / pooledRate }, basis: "usual-spread" };
  }
  if (fit.kind === "fitted") return { prior: fit.prior, basis: "fitted" };
  return { prior: { shape: LARGEST_SHAPE, rate: LARGEST_SHAPE / fit.pooledRate }, basis: "one-rate-for-all" };
}

interface Likelihood {
  logShape: number;
  logRate: number;
  value: number;
  /** First and second derivatives by the two logarithms. */
  slope: readonly [number, number];
  curvature: readonly [shape: number, both: number, rate: number];
}

function likelihoodAt(rates: readonly Rate[], logShape: number, logRate: number): Likelihood {
  const shape = Math.exp(logShape);
  const rate = Math.exp(logRate);
  let value = 0;
  let byShape = 0;
  let byRate = 0;
  let shapeShape = 0;
  let rateRate = 0;
  let shapeRate = 0;
  for (const { count, exposure } of rates) {
    const whole = rate + exposure;
    value += gammaln(shape + count) - gammaln(shape) - gammaln(count + 1) - shape * Math.log1p(exposure / rate);
    if (count > 0) value += count * Math.log(exposure / whole);
    byShape += digamma(shape + count) - digamma(shape) - Math.log1p(exposure / rate);
    byRate += shape / rate - (shape + count) / whole;
    shapeShape += trigamma(shape + count) - trigamma(shape);
    shapeRate += 1 / rate - 1 / whole;
    rateRate += (shape + count) / whole ** 2 - shape / rate ** 2;
  }
  return {
    logShape,
    logRate,
    value,
    slope: [shape * byShape, rate * byRate],
    curvature: [shape * byShape + shape ** 2 * shapeShape, shape * rate * shapeRate, rate * byRate + rate ** 2 * rateRate],
  };
}

/** Newton's step where the likelihood curves down in all directions, else a step along its slope. */
function newtonStep({ slope: [byShape, byRate], curvature: [shape, both, rate] }: Likelihood): readonly [number, number] {
  const determinant = shape * rate - both ** 2;
  const steepest = Math.max(1, Math.hypot(byShape, byRate));
  if (!(shape < 0 && determinant > 0)) return [byShape / steepest, byRate / steepest];
  const step = [-(rate * byShape - both * byRate) / determinant, -(shape * byRate - both * byShape) / determinant] as const;
  const longest = Math.max(1, Math.hypot(...step) / 3);
  return [step[0] / longest, step[1] / longest];
}
