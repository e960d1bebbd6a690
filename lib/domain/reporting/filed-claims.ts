import type { CauseCode } from "../diagnosis/knowledge";
import type { Cohort } from "./cohorts";
import type { Month } from "./month";
import { shareOutUnknown } from "./share-out";

/** Claims alike in when their units were shipped, when they were filed, and how old the units were. */
export interface FiledClaims {
  kitRevisionId: string;
  /** Of shipping. */
  month: Month;
  filed: Month;
  monthInService: number;
  /** The primary cause of the verdict, where claims are told apart by it. */
  cause?: CauseCode | null | undefined;
  claims: number;
}

/** Units of one kit revision shipped in one month; with those shared out, so not always whole. */
export interface UnitsShipped {
  kitRevisionId: string;
  month: Month;
  units: number;
  sharedOut: number;
}

/** What was shipped by kit revision, vehicle and month; the vehicle null where it is not known, or not asked for. */
export interface ShippedLine {
  kitRevisionId: string;
  vehicleId: string | null;
  month: Month;
  units: number;
}

/** The units of a selection. Those of unknown vehicle are shared out as in every report, see `shareOutUnknown`. */
export function unitsOfSelection(lines: readonly ShippedLine[], vehicle: string | undefined): readonly UnitsShipped[] {
  if (vehicle === undefined) return lines.map(({ kitRevisionId, month, units }) => ({ kitRevisionId, month, units, sharedOut: 0 }));
  const cohorts = new Map<string, Cohort & { months: { month: Month; shipped: number; claims: number }[] }>();
  for (const { kitRevisionId, vehicleId, month, units } of lines) {
    const key = `${kitRevisionId} ${vehicleId}`;
    const cohort = cohorts.get(key) ?? { kitRevisionId, vehicleId, months: [], outcomes: {}, costs: [], probable: 0 };
    cohort.months.push({ month, shipped: units, claims: 0 });
    cohorts.set(key, cohort);
  }
  return shareOutUnknown([...cohorts.values()])
    .filter(({ vehicleId }) => (vehicleId ?? "unknown") === vehicle)
    .flatMap(({ kitRevisionId, months }) => months.map(({ month, known, sharedOut }) => ({ kitRevisionId, month, units: known + sharedOut, sharedOut })))
    .filter(({ units }) => units > 0);
}

/** Adds up by whatever a line is counted under. */
export function sumBy<Line, Key>(lines: Iterable<Line>, keyOf: (line: Line) => Key, amountOf: (line: Line) => number): ReadonlyMap<Key, number> {
  const sums = new Map<Key, number>();
  for (const line of lines) {
    const key = keyOf(line);
    sums.set(key, (sums.get(key) ?? 0) + amountOf(line));
  }
  return sums;
}
