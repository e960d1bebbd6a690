import chisquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import type { Interval } from "./poisson-interval";

/** Units shipped in one month and the claims they brought in each month of service so far. */
export interface Cohort {
  units: number;
  claimsByAge: readonly number[];
}

export interface AgeRate {
  claims: number;
  /** Units that have been through this month of service. */
  exposure: number;
  /** Claims per unit; null where no unit has come to this age. */
  rate: number | null;
}

export interface AgeRateForecast {
  byAge: readonly AgeRate[];
  /** Claims to come within the horizon, by cohort. It is "at least" where a cohort grows older than any has been. */
  byCohort: readonly number[];
  total: number;
  goesBeyondOldestAge: boolean;
}

/**
 * Claims still to come of the units in the field: each month of service brings what it brought in the cohorts that have
 * been through it. Old designs rule the late ages. Nothing is assumed beyond the oldest age seen.
 *
 * Source: J. D. Kalbfleisch, J. F. Lawless and J. A. Robinson, "Methods for the analysis and prediction of warranty claims",
 * Technometrics 33 (1991) (from memory; checked against R).
 *
 * @example forecastByAge([{ units: 120, claimsByAge: [1, 2, 3] }, { units: 150, claimsByAge: [2, 1] }], 1).byCohort // [0, 3.75]
 */
export function forecastByAge(cohorts: readonly Cohort[], horizonMonths: number): AgeRateForecast {
  const byAge = ageRates(cohorts);
  const byCohort = cohorts.map(({ units, claimsByAge: seen }) =>
    byAge.slice(seen.length, seen.length + horizonMonths).reduce((sum, { rate }) => sum + units * (rate ?? 0), 0),
  );
  return {
    byAge,
    byCohort,
    total: byCohort.reduce((sum, claims) => sum + claims, 0),
    goesBeyondOldestAge: cohorts.some(({ units, claimsByAge: seen }) => units > 0 && seen.length + horizonMonths > byAge.length),
  };
}

function ageRates(cohorts: readonly Cohort[]): readonly AgeRate[] {
  const ages = Math.max(0, ...cohorts.map(({ claimsByAge }) => claimsByAge.length));
  return Array.from({ length: ages }, (_, age): AgeRate => {
    const reached = cohorts.filter(({ claimsByAge }) => claimsByAge.length > age);
    const claims = reached.reduce((sum, { claimsByAge }) => sum + (claimsByAge[age] ?? 0), 0);
    const exposure = reached.reduce((sum, { units }) => sum + units, 0);
    return { claims, exposure, rate: exposure > 0 ? claims / exposure : null };
  });
}

/**
 * How many claims really come: the interval covers both how well the rates are known and chance in what comes. Each claim
 * seen at an age stands for so many to come, its weight; sums of weighted counts go nearly as a gamma variable of the same
 * mean and variance, and for the upper limit one more claim is added at the heaviest age, so that nothing seen does not
 * mean nothing to come.
 *
 * Source: M. P. Fay and E. J. Feuer, "Confidence intervals for directly standardized rates", Statistics in Medicine 16
 * (1997) (from memory); adding the chance in what comes is our judgement.
 *
 * @returns null where no rate is known
 */
export function forecastInterval(cohorts: readonly Cohort[], horizonMonths: number, confidence: number): Interval | null {
  const { byAge, total } = forecastByAge(cohorts, horizonMonths);
  const weights = byAge.map(({ exposure }, age) => {
    const units = cohorts.reduce((sum, cohort) => (cohort.claimsByAge.length <= age && age < cohort.claimsByAge.length + horizonMonths ? sum + cohort.units : sum), 0);
    return exposure > 0 ? units / exposure : 0;
  });
  const heaviest = Math.max(0, ...weights);
  if (heaviest === 0) return null;
  const variance = byAge.reduce((sum, { claims }, age) => sum + claims * (weights[age] ?? 0) ** 2, total);
  const tail = (1 - confidence) / 2;
  const more = { mean: total + heaviest, variance: variance + heaviest ** 2 + heaviest };
  return {
    estimate: total,
    lower: total > 0 ? gammaLike(tail, total, variance) : 0,
    upper: gammaLike(1 - tail, more.mean, more.variance),
  };
}

function gammaLike(part: number, mean: number, variance: number): number {
  return (variance / (2 * mean)) * chisquareQuantile(part, (2 * mean ** 2) / variance);
}
