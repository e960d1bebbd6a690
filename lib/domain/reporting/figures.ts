import { type Interval, poissonInterval } from "../statistics/poisson-interval";
import { addCosts, type Cost, type SharedCohort } from "./cohorts";
import type { ServiceClock } from "./months-in-service";
import { OUTCOMES, type Outcome } from "./outcomes";

/** Of all intervals in the reports: one in twenty lies wholly below the truth, one in twenty wholly above. */
export const CONFIDENCE = 0.9;

/** With fewer claims a cell shows its count and interval and is never ranked by its rate. */
export const FEWEST_CLAIMS = 3;

/** What was shipped and what came of it. */
export interface Figures {
  /** With the shipments shared out. */
  shipped: number;
  sharedOut: number;
  /** Months that the shipped units have been in service together, estimated; see `monthsInService`. */
  unitMonths: number;
  claims: number;
  outcomes: Readonly<Record<Outcome, number>>;
  /** Claims with a standing verdict. */
  decided: number;
  /** Claims per 1,000 shipped; null where nothing was shipped. */
  rate: Interval | null;
  /** Claims per 1,000 unit-months in service; null where no unit has been in service yet. */
  serviceRate: Interval | null;
  costs: readonly Cost[];
  /** Beside the claims counted, and never in a rate: see `Cohort.probable`. */
  probable: number;
}

export function figuresOf(cohorts: readonly SharedCohort[], clock: ServiceClock): Figures {
  if (cohorts.length === 0) return NOTHING;
  const outcomes = { ...NOTHING.outcomes };
  let known = 0;
  let sharedOut = 0;
  let unitMonths = 0;
  let probable = 0;
  for (const cohort of cohorts) {
    for (const units of cohort.months) {
      known += units.known;
      sharedOut += units.sharedOut;
      unitMonths += (units.known + units.sharedOut) * clock.monthsOf(units.month);
    }
    for (const outcome of OUTCOMES) outcomes[outcome] += cohort.outcomes[outcome] ?? 0;
    probable += cohort.probable;
  }
  return withRates({ shipped: known + sharedOut, sharedOut, unitMonths, outcomes, costs: addCosts(cohorts.flatMap(({ costs }) => costs)), probable });
}

/** The figures of all parts together. */
export function addFigures(parts: readonly Figures[]): Figures {
  const outcomes = { ...NOTHING.outcomes };
  let shipped = 0;
  let sharedOut = 0;
  let unitMonths = 0;
  let probable = 0;
  for (const part of parts) {
    shipped += part.shipped;
    sharedOut += part.sharedOut;
    unitMonths += part.unitMonths;
    probable += part.probable;
    for (const outcome of OUTCOMES) outcomes[outcome] += part.outcomes[outcome];
  }
  return withRates({ shipped, sharedOut, unitMonths, outcomes, costs: addCosts(parts.flatMap(({ costs }) => costs)), probable });
}

function withRates(sums: Pick<Figures, "shipped" | "sharedOut" | "unitMonths" | "outcomes" | "costs" | "probable">): Figures {
  const claims = OUTCOMES.reduce((sum, outcome) => sum + sums.outcomes[outcome], 0);
  return { ...sums, claims, decided: claims - sums.outcomes.undecided - sums.outcomes.ended, rate: perThousand(claims, sums.shipped), serviceRate: perThousand(claims, sums.unitMonths) };
}

/** What most cells of a large matrix hold: the kit is not sold for the vehicle. */
const NOTHING: Figures = withRates({ shipped: 0, sharedOut: 0, unitMonths: 0, outcomes: Object.fromEntries(OUTCOMES.map((outcome) => [outcome, 0])) as Record<Outcome, number>, costs: [], probable: 0 });

/** Events per 1,000 shipped, or per 1,000 unit-months, with the exact interval; null where there is nothing to divide by. */
export function perThousand(count: number, exposure: number): Interval | null {
  return exposure > 0 ? countOver(count, exposure / 1000) : null;
}

/** A count over an exposure, or over what was expected, with the exact interval of the report's confidence. */
export function countOver(count: number, exposure: number): Interval {
  const { estimate, lower, upper } = limitsOfCount(count);
  return { estimate: estimate / exposure, lower: lower / exposure, upper: upper / exposure };
}

/** Limits depend on the count alone and take long to compute: a matrix of a thousand cells asks for few counts, again and again. */
const knownLimits = new Map<number, Interval>();
const MOST_KNOWN = 20_000;

function limitsOfCount(count: number): Interval {
  const known = knownLimits.get(count) ?? poissonInterval(count, 1, CONFIDENCE);
  if (knownLimits.size < MOST_KNOWN) knownLimits.set(count, known);
  return known;
}
