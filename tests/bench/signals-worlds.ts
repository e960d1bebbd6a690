import type { ClaimsFiled, ShippedAndClaimed } from "@/lib/domain/reporting/signals-world";
import { Random } from "@/seed/random";

/**
 * Made-up sales of which the truth is known: twelve kits on eight vehicles, three each, in two revisions and quarterly
 * batches, with twelve causes. Claims come with the delays of the demo: fitting, leaking, complaining, deciding.
 */
export interface WorldPlan {
  seed: number;
  /** Months before the fault may begin. */
  monthsBefore: number;
  monthsAfter: number;
  /** Rate per unit of the cause looked for, in all cells alike. */
  rate: number;
  /** How many times that rate in the one cell, of units shipped from the first month after; 1: no fault anywhere. */
  times: number;
  /** Kits and vehicles differ by nature, and one cause comes in winter. */
  isUneven: boolean;
}

export interface PlayedWorld {
  /** Everything as it stands at the end of so many months after the fault may have begun. */
  asOf(monthsAfter: number): ShippedAndClaimed;
}

export const FAULTY = { kit: "kit 0", vehicle: "vehicle 0", cause: "C01", unitsAMonth: 200 } as const;

const KITS = 12;
const VEHICLES = 8;
const VEHICLES_A_KIT = 3;
/** Rates per unit of the other causes, and the mean days from fitting to leaking. */
const OTHERS: readonly (readonly [cause: string, rate: number, days: number])[] = [
  ["C02", 0.006, 6], ["C03", 0.003, 6], ["C06", 0.005, 6], ["C07", 0.003, 20], ["C08", 0.002, 95], ["C10", 0.001, 6],
  ["C11", 0.002, 60], ["C14", 0.001, 40], ["C15", 0.0008, 38], ["C18", 0.004, 80], ["C21", 0.0015, 60],
];
const DAYS_OF_THE_CAUSE_LOOKED_FOR = 6;
const WINTER_CAUSE = "C07";
const FIRST_DAY = Date.UTC(2025, 0, 1) / 86_400_000;

export function playWorld({ seed, monthsBefore, monthsAfter, rate, times, isUneven }: WorldPlan): PlayedWorld {
  const random = Random.forTheme(seed, "signals");
  const differs = () => (isUneven ? random.logNormal(1, 0.3) : 1);
  const causes = [["C01", rate, DAYS_OF_THE_CAUSE_LOOKED_FOR] as const, ...OTHERS];
  const kitFactors = Array.from({ length: KITS }, () => causes.map(differs));
  const vehicleFactors = Array.from({ length: VEHICLES }, () => causes.map(differs));
  const shipped: { kit: string; revision: string; vehicle: string; batch: string; month: number; units: number }[] = [];
  const claims: { place: number; cause: string; filedOn: number; filed: string; decidedOn: number }[] = [];
  for (let kit = 0; kit < KITS; kit += 1)
    for (let slot = 0; slot < VEHICLES_A_KIT; slot += 1) {
      const vehicle = (kit * 2 + slot * 3) % VEHICLES;
      const isFaulty = kit === 0 && vehicle === 0;
      const usual = isFaulty ? FAULTY.unitsAMonth : random.logNormal(90, 0.7);
      for (let month = 0; month < monthsBefore + monthsAfter; month += 1) {
        const units = isFaulty ? FAULTY.unitsAMonth : poisson(random, usual);
        const place = shipped.push({ kit: `kit ${kit}`, revision: `kit ${kit} ${month < monthsBefore / 2 ? "A" : "B"}`, vehicle: `vehicle ${vehicle}`, batch: `${kit}-${Math.floor(month / 3)}`, month, units }) - 1;
        causes.forEach(([cause, usualRate, days], index) => {
          const raised = isFaulty && cause === FAULTY.cause && month >= monthsBefore ? times : 1;
          const mean = units * usualRate * raised * (kitFactors[kit]?.[index] ?? 1) * (vehicleFactors[vehicle]?.[index] ?? 1);
          for (let left = poisson(random, mean); left > 0; left -= 1) {
            const fitted = dayOf(month) + random.whole(0, 29) + random.logNormal(15, 0.85);
            const leaks = cause === WINTER_CAUSE && isUneven ? nextWinter(random, fitted) : fitted + random.exponential(days);
            const filedOn = Math.floor(leaks + 1 + random.exponential(8));
            claims.push({ place, cause, filedOn, filed: monthName(monthOf(filedOn)), decidedOn: filedOn + Math.ceil(random.logNormal(9, 0.6)) });
          }
        });
      }
    }
  return {
    asOf(after) {
      const end = monthsBefore + after;
      const lastDay = dayOf(end) - 1;
      const lines = new Map<string, ClaimsFiled>();
      for (const { place, cause, filedOn, filed, decidedOn } of claims) {
        const line = shipped[place];
        if (!line || filedOn > lastDay) continue;
        const known = decidedOn <= lastDay ? cause : null;
        const key = `${place} ${filed} ${known}`;
        const found = lines.get(key);
        if (found) found.claims += 1;
        else lines.set(key, { kitId: line.kit, kitRevisionId: line.revision, vehicleId: line.vehicle, batch: line.batch, month: monthName(line.month), filed, cause: known, claims: 1 });
      }
      return {
        shipped: shipped.filter(({ month }) => month < end).map(({ kit, revision, vehicle, batch, month, units }) => ({ kitId: kit, kitRevisionId: revision, vehicleId: vehicle, batch, month: monthName(month), units })),
        claims: [...lines.values()],
        today: new Date(lastDay * 86_400_000).toISOString().slice(0, 10),
      };
    },
  };
}

/** The name of a month of the story, the first being January 2025. */
export function monthName(month: number): string {
  return `${2025 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, "0")}`;
}

function dayOf(month: number): number {
  return Date.UTC(2025, month, 1) / 86_400_000;
}
function monthOf(day: number): number {
  const date = new Date(day * 86_400_000);
  return (date.getUTCFullYear() - 2025) * 12 + date.getUTCMonth();
}
function nextWinter(random: Random, from: number): number {
  let day = Math.max(FIRST_DAY, Math.floor(from));
  while (![11, 0, 1].includes(new Date(day * 86_400_000).getUTCMonth())) day += 1;
  return day + random.exponential(26);
}
/** By counting exponential waits; means here are small. */
function poisson(random: Random, mean: number): number {
  let count = -1;
  for (let waited = 0; waited <= mean; waited += random.exponential(1)) count += 1;
  return mean > 0 ? count : 0;
}
