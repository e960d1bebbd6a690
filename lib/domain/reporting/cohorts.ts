import type { Month } from "./month";
import type { Outcome } from "./outcomes";

/** Money in the smallest unit of a currency. */
export interface Cost {
  currency: string;
  amountMinor: number;
}

/** What was shipped of one kit revision for one vehicle, month by month of shipping, and what came of it. */
export interface Cohort {
  kitRevisionId: string;
  /** Null where the vehicle is not known. */
  vehicleId: string | null;
  months: readonly { month: Month; shipped: number; claims: number }[];
  /** The claims by what they were laid to; what is left out is none. */
  outcomes: Readonly<Partial<Record<Outcome, number>>>;
  /** What the claims cost so far. */
  costs: readonly Cost[];
  /** Of claims not yet decided: how many would have the cause asked for, by their rankings. */
  probable: number;
}

/** A cohort in which shipments of unknown vehicles have been shared out. Add both for what claims are divided by; `sharedOut` need not be whole. */
export interface SharedCohort extends Omit<Cohort, "months"> {
  months: readonly { month: Month; known: number; sharedOut: number; claims: number }[];
}

/** Adds up money, currency by currency, the larger sum first. */
export function addCosts(costs: Iterable<Cost>): readonly Cost[] {
  const byCurrency = new Map<string, number>();
  for (const { currency, amountMinor } of costs) byCurrency.set(currency, (byCurrency.get(currency) ?? 0) + amountMinor);
  return [...byCurrency].map(([currency, amountMinor]) => ({ currency, amountMinor })).sort((a, b) => b.amountMinor - a.amountMinor || a.currency.localeCompare(b.currency));
}

/** The claims without what was shipped, where it is not known how many units they came of; a rate is then never computed. */
export function claimsAlone(cohorts: readonly Cohort[]): readonly Cohort[] {
  return cohorts.map((cohort) => ({ ...cohort, months: cohort.months.flatMap(({ month, claims }) => (claims > 0 ? [{ month, shipped: 0, claims }] : [])) })).filter(({ months, probable }) => months.length > 0 || probable > 0);
}
