import { boundWithoutFailure } from "../statistics/bound-without-failure";
import type { Lifetime } from "../statistics/lifetimes";
import type { Interval } from "../statistics/poisson-interval";
import { type SurvivalCurve, survivalAt, survivalCurve } from "../statistics/survival-curve";
import { fitWeibull, type WeibullFit } from "../statistics/weibull-fit";
import { CONFIDENCE, FEWEST_CLAIMS, perThousand } from "./figures";
import { sumBy } from "./filed-claims";
import type { Month } from "./month";
import { monthsInService } from "./months-in-service";

/** What the shape of the distribution says: faults of the start die out, they come at random, they grow with wear. */
export type LifeVerdict = "infant" | "random" | "wear" | "cannot-tell";

export interface TimeToClaim {
  units: number;
  /** Shipped so lately that by the usual delay they are not fitted yet. */
  notFittedYet: number;
  claims: number;
  unitMonths: number;
  /** The longest time in service so far, in months. */
  longest: number;
  curve: SurvivalCurve;
  fit: WeibullFit;
  verdict: LifeVerdict;
  /** Claims per 1,000 unit-months; null where no unit is in service. */
  rate: Interval | null;
  /** Where there is no claim: with this confidence the rate per 1,000 unit-months lies below. */
  upperBound: number | null;
}

/** With fewer claims the shape comes out too high and says nothing. */
const FEWEST_FOR_SHAPE = 5;
/** An interval of the shape within these limits is as good as 1 (judgement). */
const ABOUT_RANDOM = { lower: 0.8, upper: 1.25 };

/**
 * Time from fitting to claim of a selection: every unit counts for as long as it has been in service, though most never
 * claim. A claim comes half way through its month in service; other units are watched from their usual fitting until
 * today. Units that claimed for something else leave the watch then. Of months whose units are not fitted yet by the usual
 * delay nothing is told.
 *
 * @param units shipped, by month
 * @param others claims of the same units that are not asked for
 * @example timeToClaim({ units: new Map([["2026-01", 120]]), claims: [{ month: "2026-01", monthInService: 0, claims: 2 }], others: [], today: "2026-11-25" })
 */
export function timeToClaim({ units, claims, others, today }: { units: ReadonlyMap<Month, number>; claims: readonly AgedClaims[]; others: readonly AgedClaims[]; today: string }): TimeToClaim {
  const gone = sumBy([...claims, ...others], ({ month }) => month, (line) => line.claims);
  /** No claim comes later than its fellows are watched: beyond them it would be one of hardly any left, and look like half of all. */
  const lifetimesOf = (lines: readonly AgedClaims[], failed: boolean): Lifetime[] =>
    lines.flatMap(({ month, monthInService, claims: of }) => {
      const longest = monthsInService(month, today);
      return longest > 0 ? [{ time: Math.min(monthInService + 0.5, longest), failed, units: of }] : [];
    });
  const lifetimes = [...lifetimesOf(claims, true), ...lifetimesOf(others, false)];
  let notFittedYet = 0;
  for (const [month, shipped] of units) {
    const left = Math.max(0, shipped - (gone.get(month) ?? 0));
    const time = monthsInService(month, today);
    if (time > 0) lifetimes.push({ time, failed: false, units: left });
    else notFittedYet += left;
  }
  const watched = lifetimes.filter(({ units: of }) => (of ?? 0) > 0);
  const count = claims.reduce((sum, line) => sum + line.claims, 0);
  const unitMonths = watched.reduce((sum, { time, units: of }) => sum + time * (of ?? 0), 0);
  const curve = survivalCurve(watched, CONFIDENCE);
  const fit = fitWeibull(watched, CONFIDENCE);
  return {
    units: [...units.values()].reduce((sum, shipped) => sum + shipped, 0),
    notFittedYet,
    claims: count,
    unitMonths,
    longest: curve.longest,
    curve,
    fit,
    verdict: verdictOf(fit),
    rate: perThousand(count, unitMonths),
    upperBound: count === 0 && unitMonths > 0 ? 1000 * boundWithoutFailure(unitMonths, (1 + CONFIDENCE) / 2).rateUpper : null,
  };
}

export interface AgedClaims {
  /** Of shipping. */
  month: Month;
  monthInService: number;
  claims: number;
}

/** What a shape says, where it says anything. */
export function verdictOf(fit: WeibullFit): LifeVerdict {
  if (fit.kind !== "fitted" || fit.failures < FEWEST_FOR_SHAPE) return "cannot-tell";
  const { lower, upper } = fit.shape;
  if (lower >= ABOUT_RANDOM.lower && upper <= ABOUT_RANDOM.upper) return "random";
  if (upper < 1) return "infant";
  return lower > 1 ? "wear" : "cannot-tell";
}

/** Share of units with a claim by a month in service, with its band; null beyond the longest watch, or with too few claims to draw a curve of. */
export function shareClaimedBy({ curve, claims }: TimeToClaim, month: number): Interval | null {
  const at = claims >= FEWEST_CLAIMS ? survivalAt(curve, month) : null;
  return at && at.lower !== null && at.upper !== null ? { estimate: 1 - at.survival, lower: 1 - at.upper, upper: 1 - at.lower } : null;
}

/** The same by the fitted distribution, to be laid over the curve. */
export function fittedShare(fit: WeibullFit, month: number): number | null {
  return fit.kind === "fitted" ? -Math.expm1(-((month / fit.scale.estimate) ** fit.shape.estimate)) : null;
}
