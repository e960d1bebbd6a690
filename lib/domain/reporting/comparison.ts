import type { Interval } from "../statistics/poisson-interval";
import { expectedCount } from "../statistics/expected-count";
import type { SharedCohort } from "./cohorts";
import { countOver } from "./figures";
import type { Month } from "./month";

/** A cell against what was shipped in the same months elsewhere. */
export interface Comparison {
  expected: number;
  /** Claims over expected claims. */
  ratio: Interval;
}

interface Went {
  shipped: number;
  claims: number;
}
export type WentByMonth = ReadonlyMap<Month, Went>;

/** What was shipped and how many claims it brought, month by month of shipping. */
export function wentByMonth(cohorts: readonly SharedCohort[]): WentByMonth {
  const months = new Map<Month, Went>();
  for (const cohort of cohorts)
    for (const { month, known, sharedOut, claims } of cohort.months) {
      const went = months.get(month) ?? { shipped: 0, claims: 0 };
      went.shipped += known + sharedOut;
      went.claims += claims;
      months.set(month, went);
    }
  return months;
}

/**
 * Compares the claims of a cell with those it would have had if its shipments had gone like all others of the same
 * months, itself left out. Month by month, so that a kit sold lately is not flattered by claims that are still to come,
 * nor blamed for a season.
 *
 * @param everywhere the same for all cells, this one included
 * @returns null where nothing was shipped here, or nothing elsewhere brought a claim
 */
export function compareWithTheRest(here: WentByMonth, everywhere: WentByMonth): Comparison | null {
  const all = sum(everywhere.values());
  const part = sum(here.values());
  const wholeRest = { shipped: all.shipped - part.shipped, claims: all.claims - part.claims };
  if (wholeRest.shipped < ONE_SHIPMENT) return null;
  const expected = expectedCount(
    [...here].map(([month, { shipped, claims }]) => {
      const allOfMonth = everywhere.get(month);
      const sameMonth = allOfMonth && { shipped: allOfMonth.shipped - shipped, claims: allOfMonth.claims - claims };
      // A month in which nothing else was shipped is expected to go like the other months together.
      const pattern = sameMonth && sameMonth.shipped >= ONE_SHIPMENT ? sameMonth : wholeRest;
      return { rate: pattern.claims / pattern.shipped, exposure: shipped };
    }),
  );
  return expected > 0 ? { expected, ratio: countOver(part.claims, expected) } : null;
}

/** Whether the whole interval lies above what the rest would give. A hint to look, not a test: nothing allows for the number of cells. */
export function looksHigh(comparison: Comparison | null): boolean {
  return comparison !== null && comparison.ratio.lower > 1;
}

/** Of a difference of sums, less than this is rounding. */
const ONE_SHIPMENT = 0.5;

function sum(all: Iterable<Went>): Went {
  const total = { shipped: 0, claims: 0 };
  for (const { shipped, claims } of all) {
    total.shipped += shipped;
    total.claims += claims;
  }
  return total;
}
