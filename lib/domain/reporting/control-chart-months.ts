import { forecastByAge } from "../statistics/age-rate-forecast";
import type { MonthToChart } from "./control-chart";
import { COMPLETE, type Completeness, completenessOf, type FilingDelay } from "./control-chart-delay";
import { sumBy } from "./filed-claims";
import { cohortsByMonth } from "./forecast";
import { eachMonthOf, type Month, monthsBetween, partOfMonth, type Period } from "./month";

interface Filed {
  month: Month;
  filed: Month;
  claims: number;
}

/** What is known of a selection, from its first shipment on. */
export interface TimesOfSelection {
  /** Units shipped, by month. */
  units: ReadonlyMap<Month, number>;
  claims: readonly Filed[];
  /** All claims of the same units and those of them without a verdict, where claims are narrowed by what verdicts tell. */
  verdicts: { all: readonly Filed[]; undecided: readonly Filed[] } | null;
  today: string;
}

/**
 * Months of shipping, with the claims that came of each so far against what was shipped in it. The newest miss claims not
 * yet filed, and where a verdict is asked for those not yet decided, taken to come out as the decided ones did.
 */
export function monthsOfShipping({ units, claims, verdicts, today }: TimesOfSelection, delay: FilingDelay | null, period: Period): readonly MonthToChart[] {
  const counts = sumBy(claims, ({ month }) => month, (line) => line.claims);
  const decided = decidedShare(verdicts, ({ month }) => month);
  return fromFirst(
    upToNow(period, today).map((month) => {
      const known: Completeness = delay ? completenessOf(delay, month, today) : COMPLETE;
      return { month, claims: counts.get(month) ?? 0, exposure: units.get(month) ?? 0, share: known.share * decided(month), relativeVariance: known.relativeVariance };
    }),
  );
}

/**
 * Months of filing, with the claims filed in each against the units in the field: where a season shows, and what happened
 * when. Most claims come early in a unit's life, so a unit counts in each month as much as units of its age usually
 * bring; else a rate would fall as the fleet grows older. A claim filed is known; only verdicts are still to come.
 *
 * @param weights of the months since shipping, by `ageWeights`
 */
export function monthsOfFiling({ units, claims, verdicts, today }: TimesOfSelection, weights: readonly number[], period: Period): readonly MonthToChart[] {
  const counts = sumBy(claims, ({ filed }) => filed, (line) => line.claims);
  const decided = decidedShare(verdicts, ({ filed }) => filed);
  return fromFirst(
    upToNow(period, today).map((month) => {
      const part = month === today.slice(0, 7) ? partOfMonth(today) : 1;
      const exposure = [...units].reduce((sum, [shipped, of]) => sum + of * weightAt(weights, monthsBetween(shipped, month)) * part, 0);
      return { month, claims: counts.get(month) ?? 0, exposure, share: decided(month), relativeVariance: 0 };
    }),
  );
}

/**
 * How many claims a unit brings in each month since its shipping, against its mean month: indirect standardisation by age.
 *
 * @example of 10 claims on 100 units watched two months 9 came in the first: [1.8, 0.2]
 */
export function ageWeights({ units, claims, today }: Pick<TimesOfSelection, "units" | "claims" | "today">): readonly number[] {
  const [first] = [...units.keys()].sort();
  if (first === undefined) return [];
  const { byAge } = forecastByAge(cohortsByMonth(units, claims, { from: first, to: today.slice(0, 7) }), 0);
  const count = byAge.reduce((sum, age) => sum + age.claims, 0);
  const exposure = byAge.reduce((sum, age) => sum + age.exposure, 0);
  return byAge.map(({ rate }) => (count > 0 ? ((rate ?? 0) * exposure) / count : 1));
}

/** Of units older than any that were watched for whole months, as the oldest of those. */
function weightAt(weights: readonly number[], age: number): number {
  return age < 0 ? 0 : (weights[age] ?? weights.at(-1) ?? 0);
}

/** Nothing has happened yet in months to come. */
function upToNow({ from, to }: Period, today: string): readonly Month[] {
  const thisMonth = today.slice(0, 7);
  return eachMonthOf({ from, to: to < thisMonth ? to : thisMonth });
}

/** Before the first shipment there is nothing to say. */
function fromFirst(months: readonly MonthToChart[]): readonly MonthToChart[] {
  const first = months.findIndex(({ exposure, claims }) => exposure > 0 || claims > 0);
  return first < 0 ? [] : months.slice(first);
}

function decidedShare(verdicts: TimesOfSelection["verdicts"], keyOf: (line: Filed) => Month): (month: Month) => number {
  if (!verdicts) return () => 1;
  const all = sumBy(verdicts.all, keyOf, (line) => line.claims);
  const undecided = sumBy(verdicts.undecided, keyOf, (line) => line.claims);
  return (month) => {
    const filed = all.get(month) ?? 0;
    return filed > 0 ? 1 - (undecided.get(month) ?? 0) / filed : 1;
  };
}
