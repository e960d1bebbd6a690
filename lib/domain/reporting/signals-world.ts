import type { CauseCode } from "../diagnosis/knowledge";
import type { Month } from "./month";

/** Units that went out alike: one line for each kit revision, vehicle, batch and month. */
export interface UnitsShipped {
  kitId: string;
  kitRevisionId: string;
  /** Null where the order did not tell. */
  vehicleId: string | null;
  /** Null where the kit went out without a unit. */
  batch: string | null;
  month: Month;
  units: number;
}

/** Claims about such units that were filed in one month. Those that ended without a verdict are left out. */
export interface ClaimsFiled extends Omit<UnitsShipped, "units"> {
  filed: Month;
  /** The primary cause of the standing verdict; null while there is none. */
  cause: CauseCode | null;
  claims: number;
}

/** What was shipped and what came of it so far. */
export interface ShippedAndClaimed {
  shipped: readonly UnitsShipped[];
  claims: readonly ClaimsFiled[];
  /** `2026-11-25`: the day up to which claims stand here. */
  today: string;
}

/** The smallest part that is never divided: it belongs whole to a kit, a revision, a vehicle, a batch, a month. */
export interface Atom {
  kit: string;
  revision: string;
  vehicle: string | null;
  batch: string | null;
  /** Month of shipping, counted. */
  month: number;
  /** Known and shared out. */
  units: number;
  /** Decided claims by cause and month of filing. */
  claims: { cause: number; filed: number; count: number }[];
}

export interface World {
  causes: readonly CauseCode[];
  atoms: readonly Atom[];
  firstMonth: number;
  /** The month of today, which is not over. */
  lastMonth: number;
  /** How much of what is filed in a month has its cause here by now: 1 for old months, less where verdicts are still to come or the month is not over. */
  shareIn(filed: number): number;
}

/**
 * Puts shipments and claims together. Units whose vehicle is not known are shared out over the vehicles as the known
 * ones of the same revision are; claims whose vehicle is not known count for the kit, for no vehicle.
 */
export function worldOf({ shipped, claims, today }: ShippedAndClaimed): World {
  const causes = [...new Set(claims.flatMap(({ cause }) => cause ?? []))].sort();
  const causeIndex = new Map(causes.map((cause, index) => [cause, index]));
  const lastMonth = monthNumber(today.slice(0, 7));
  const atoms = new Map<string, Atom>();
  const atomOf = ({ kitId, kitRevisionId, batch, month }: Omit<UnitsShipped, "units">, vehicle: string | null): Atom => {
    const key = `${kitRevisionId} ${vehicle} ${month} ${batch}`;
    const found = atoms.get(key) ?? { kit: kitId, revision: kitRevisionId, vehicle, batch, month: monthNumber(month), units: 0, claims: [] };
    atoms.set(key, found);
    return found;
  };

  const known = new Map<string, Map<string, number>>();
  for (const { kitRevisionId, vehicleId, units } of shipped) {
    if (vehicleId === null) continue;
    const vehicles = known.get(kitRevisionId) ?? new Map<string, number>();
    vehicles.set(vehicleId, (vehicles.get(vehicleId) ?? 0) + units);
    known.set(kitRevisionId, vehicles);
  }
  for (const line of shipped) {
    if (monthNumber(line.month) > lastMonth) continue;
    const vehicles = line.vehicleId === null ? known.get(line.kitRevisionId) : undefined;
    const total = vehicles ? [...vehicles.values()].reduce((sum, units) => sum + units, 0) : 0;
    if (!vehicles || total === 0) atomOf(line, line.vehicleId).units += line.units;
    else for (const [vehicle, units] of vehicles) atomOf(line, vehicle).units += (line.units * units) / total;
  }

  const filedIn = new Map<number, { decided: number; all: number }>();
  for (const line of claims) {
    const filed = monthNumber(line.filed);
    if (filed > lastMonth || monthNumber(line.month) > filed) continue;
    const month = filedIn.get(filed) ?? { decided: 0, all: 0 };
    month.all += line.claims;
    const cause = line.cause === null ? undefined : causeIndex.get(line.cause);
    if (cause !== undefined) {
      month.decided += line.claims;
      atomOf(line, line.vehicleId).claims.push({ cause, filed, count: line.claims });
    }
    filedIn.set(filed, month);
  }
  const partOfLastMonth = Number(today.slice(8)) / new Date(Date.UTC(Number(today.slice(0, 4)), Number(today.slice(5, 7)), 0)).getUTCDate();
  const all = [...atoms.values()];
  return {
    causes,
    atoms: all,
    firstMonth: all.reduce((first, { month }) => Math.min(first, month), lastMonth),
    lastMonth,
    shareIn(filed) {
      const month = filedIn.get(filed);
      return (month && month.all > 0 ? month.decided / month.all : 1) * (filed === lastMonth ? partOfLastMonth : 1);
    },
  };
}

/** Months counted through, so that they can be subtracted. */
export function monthNumber(month: Month): number {
  return Number(month.slice(0, 4)) * 12 + Number(month.slice(5)) - 1;
}

/** Back from a counted month. */
export function monthOfNumber(number: number): Month {
  return `${String(Math.floor(number / 12)).padStart(4, "0")}-${String((number % 12) + 1).padStart(2, "0")}`;
}
