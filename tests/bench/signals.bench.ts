/**
 * How often signals are false, and how soon they find a fault: `npm run bench -- signals`. Takes two to three minutes.
 *
 * Beside each way of looking stand fixed thresholds that raise as many false alarms: drawn for each rate from the same
 * worlds without a fault, with a coin between two neighbouring numbers where none fits alone.
 */
import { FALSE_DISCOVERY_RATE, FEWEST_CLAIMS_OF_A_SIGNAL, findSignals } from "@/lib/domain/reporting/signals";
import { FALSE_ALARM_IN_LOOKS, watchCell } from "@/lib/domain/reporting/signals-watch";
import { monthNumber, type ShippedAndClaimed } from "@/lib/domain/reporting/signals-world";
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";
import { FAULTY, monthName, playWorld } from "./signals-worlds";

const WORLDS = 200;
const RATES = [0.003, 0.01, 0.02] as const;
const LOOKS = [1, 2, 3, 4, 5, 6] as const;
const MONTHS_BEFORE = 12;
const THRESHOLD_MONTHS = 6;
const cell = { kitId: FAULTY.kit, kitRevisionId: null, vehicleId: FAULTY.vehicle, batch: null, shippedFrom: null };

const worlds = (firstSeed: number, plan: { rate: number; times: number; isUneven: boolean }) =>
  Array.from({ length: WORLDS }, (_, index) => playWorld({ seed: firstSeed + index, monthsBefore: MONTHS_BEFORE, monthsAfter: LOOKS.length, ...plan }));
const percent = (share: number) => `${Math.round(100 * share)}`;
const withInterval = (count: number, of: number) => {
  const { lower, upper } = wilsonInterval(count, of, 0.95);
  return `${percent(count / of)} % (${percent(lower)} to ${percent(upper)})`;
};
const verdicts = { ahead: 0, level: 0, behind: 0 };

console.log(`\n${WORLDS} worlds of each kind; in brackets 95 % intervals. False alarms where nothing is wrong:`);
for (const rate of RATES) {
  const usual = worlds(5000, { rate, times: 1, isUneven: false }).map((world) => {
    const looks = LOOKS.map((months) => world.asOf(months));
    const newest = looks.at(-1) as ShippedAndClaimed;
    const recent = [...recentOf(newest).values()];
    return {
      isListed: hasSignal(newest),
      watched: looks.map(isWatchedOut),
      highestRate: Math.max(0, ...recent.flatMap(({ claims, units }) => (claims >= FEWEST_CLAIMS_OF_A_SIGNAL ? [claims / units] : []))),
      mostClaims: Math.max(0, ...recent.map(({ claims }) => claims)),
      mostFiled: Math.max(...looks.map(filedLastMonth)),
      mostOfCell: Math.max(...looks.map((look) => recentOfCell(look).claims)),
    };
  });
  const uneven = worlds(1, { rate, times: 1, isUneven: true }).filter((world) => hasSignal(world.asOf(LOOKS.length))).length;
  const listed = usual.filter(({ isListed }) => isListed).length;
  const watched = usual.filter(({ watched: looks }) => looks.includes(true)).length;
  const looksOut = meanOf(usual.map(({ watched: looks }) => looks.filter(Boolean).length / looks.length));
  const named = `${100 * rate} %`.padEnd(7);
  console.log(`\n  ${named}list, one look: ${withInterval(listed, WORLDS)} of the worlds; where kits and vehicles differ and one cause comes in winter ${withInterval(uneven, WORLDS)}; stated ${percent(FALSE_DISCOVERY_RATE)} %`);
  console.log(`         one cell: ${(100 * looksOut.mean).toFixed(1)} % of the looks (${(100 * Math.max(0, looksOut.mean - looksOut.reach)).toFixed(1)} to ${(100 * (looksOut.mean + looksOut.reach)).toFixed(1)}), stated ${(100 / FALSE_ALARM_IN_LOOKS).toFixed(1)} %; any of six in ${withInterval(watched, WORLDS)} of the worlds`);
  const thresholds = {
    rate: lineCrossedBy(usual.map(({ highestRate }) => highestRate), listed),
    claims: lineCrossedBy(usual.map(({ mostClaims }) => mostClaims), listed),
    filed: lineCrossedBy(usual.map(({ mostFiled }) => mostFiled), watched),
    ofCell: lineCrossedBy(usual.map(({ mostOfCell }) => mostOfCell), watched),
  };

  const found = worlds(1000, { rate, times: 3, isUneven: false }).map((world) => {
    const looks = LOOKS.map((months) => world.asOf(months));
    const cells = looks.map((look) => ({ ...recentOfCell(look), filed: filedLastMonth(look) }));
    return {
      list: byThen(looks, (look) => Number(findSignals(look).signals.some(isTheFault))),
      rate: byThen(cells, ({ claims, units }) => (claims >= FEWEST_CLAIMS_OF_A_SIGNAL ? thresholds.rate(claims / units) : 0)),
      claims: byThen(cells, ({ claims }) => thresholds.claims(claims)),
      watch: byThen(looks, (look) => Number(isWatchedOut(look))),
      filed: byThen(cells, ({ filed }) => thresholds.filed(filed)),
      ofCell: byThen(cells, ({ claims }) => thresholds.ofCell(claims)),
    };
  });
  const [list, watch] = [found.map((ways) => ways.list), found.map((ways) => ways.watch)];
  console.log(`         found, by months since the fault came in:${LOOKS.map((months) => String(months).padStart(15)).join("")}`);
  print("the monthly list", list);
  print(`  claims per unit shipped in ${THRESHOLD_MONTHS} months`, found.map((ways) => ways.rate), list);
  print(`  claims on units of ${THRESHOLD_MONTHS} months`, found.map((ways) => ways.claims), list);
  print("the cell's own cumulative sum", watch);
  print("  its claims filed in a month", found.map((ways) => ways.filed), watch);
  print(`  its claims on units of ${THRESHOLD_MONTHS} months`, found.map((ways) => ways.ofCell), watch);
}
console.log(`\nOver ${RATES.length} rates, ${LOOKS.length} months and two fixed thresholds for each way of looking, ours is ahead (+) in ${verdicts.ahead}, level (=) in ${verdicts.level}, behind (-) in ${verdicts.behind}, at 95 %.`);

/** By world and look: the chance that the fault has been found by then. */
type FoundBy = readonly (readonly number[])[];

function byThen<T>(looks: readonly T[], chanceIn: (look: T) => number): readonly number[] {
  let found = 0;
  return looks.map((look) => {
    if (found < 1) found = Math.max(found, chanceIn(look));
    return found;
  });
}

function print(way: string, found: FoundBy, ours?: FoundBy): void {
  const cells = LOOKS.map((_, look) => {
    const shares = found.map((looks) => looks[look] ?? 0);
    const total = shares.reduce((sum, share) => sum + share, 0);
    if (!ours) {
      const { lower, upper } = wilsonInterval(total, WORLDS, 0.95);
      return `${percent(total / WORLDS)} (${percent(lower)}-${percent(upper)})`;
    }
    const verdict = compared(shares.map((share, world) => (ours[world]?.[look] ?? 0) - share));
    verdicts[verdict] += 1;
    return `${percent(total / WORLDS)} ${{ ahead: "+", level: "=", behind: "-" }[verdict]}`.padEnd(8);
  });
  console.log(`         ${way.padEnd(41)}${cells.map((text) => text.padStart(15)).join("")}`);
}

/** By what we found more, world by world. */
function compared(more: readonly number[]): keyof typeof verdicts {
  const { mean, reach } = meanOf(more);
  return mean > reach ? "ahead" : mean < -reach ? "behind" : "level";
}

/** Over worlds, with how far it may be off at 95 %. */
function meanOf(values: readonly number[]): { mean: number; reach: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, reach: (1.96 * Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0))) / values.length };
}

/** The line that so many of the figures are above; the chance of an alarm on it is such that the number is met. */
function lineCrossedBy(figures: readonly number[], alarms: number): (figure: number) => number {
  const line = figures.toSorted((a, b) => b - a)[alarms] ?? 0;
  const above = figures.filter((figure) => figure > line).length;
  const onIt = (alarms - above) / figures.filter((figure) => figure === line).length;
  return (figure) => (figure > line ? 1 : figure === line ? onIt : 0);
}

function hasSignal(given: ShippedAndClaimed): boolean {
  return findSignals(given).signals.length > 0;
}

function isTheFault({ cause, scope: { kitId, vehicleId, batch } }: ReturnType<typeof findSignals>["signals"][number]): boolean {
  return cause === FAULTY.cause && (batch === null ? kitId === FAULTY.kit && (vehicleId ?? FAULTY.vehicle) === FAULTY.vehicle : batch.startsWith("0-"));
}

function isWatchedOut(given: ShippedAndClaimed): boolean {
  return watchCell(given, { scope: cell, cause: FAULTY.cause, from: monthName(MONTHS_BEFORE) })?.signalled != null;
}

function filedLastMonth({ claims, today }: ShippedAndClaimed): number {
  return claims.reduce((sum, { kitId, vehicleId, cause, filed, claims: count }) => sum + (kitId === FAULTY.kit && vehicleId === FAULTY.vehicle && cause === FAULTY.cause && filed === today.slice(0, 7) ? count : 0), 0);
}

interface Recent {
  claims: number;
  units: number;
}

/** By kit, vehicle and cause: units shipped in the last months and their decided claims. */
function recentOf({ shipped, claims, today }: ShippedAndClaimed): ReadonlyMap<string, Recent> {
  const isRecent = ({ month }: { month: string }) => monthNumber(month) > monthNumber(today.slice(0, 7)) - THRESHOLD_MONTHS;
  const units = new Map<string, number>();
  for (const line of shipped) if (isRecent(line)) units.set(`${line.kitId} ${line.vehicleId}`, (units.get(`${line.kitId} ${line.vehicleId}`) ?? 0) + line.units);
  const recent = new Map<string, Recent>();
  for (const line of claims) {
    if (!isRecent(line) || line.cause === null) continue;
    const place = `${line.kitId} ${line.vehicleId}`;
    const found = recent.get(`${place} ${line.cause}`) ?? { claims: 0, units: units.get(place) ?? 1 };
    recent.set(`${place} ${line.cause}`, { ...found, claims: found.claims + line.claims });
  }
  return recent;
}

function recentOfCell(look: ShippedAndClaimed): Recent {
  return recentOf(look).get(`${FAULTY.kit} ${FAULTY.vehicle} ${FAULTY.cause}`) ?? { claims: 0, units: 1 };
}
