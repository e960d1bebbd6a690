/**
 * How often signals are false, and how soon they find a fault: `npm run bench -- signals`. Takes some minutes.
 *
 * Beside each stands a fixed threshold that raises as many false alarms in the same worlds.
 */
import { FALSE_DISCOVERY_RATE, FEWEST_CLAIMS_OF_A_SIGNAL, findSignals } from "@/lib/domain/reporting/signals";
import { FALSE_ALARM_IN_LOOKS, watchCell } from "@/lib/domain/reporting/signals-watch";
import { monthNumber, type ShippedAndClaimed } from "@/lib/domain/reporting/signals-world";
import { wilsonInterval } from "@/lib/domain/statistics/wilson-interval";
import { FAULTY, monthName, playWorld } from "./signals-worlds";

const WORLDS_WITHOUT_A_FAULT = 200;
const WORLDS_WITH_A_FAULT = 100;
const RATES = [0.003, 0.01, 0.02] as const;
const LOOKS = [1, 2, 3, 4, 5, 6] as const;
const MONTHS_BEFORE = 12;
const cell = { kitId: FAULTY.kit, kitRevisionId: null, vehicleId: FAULTY.vehicle, batch: null, shippedFrom: null };

const seeds = (first: number, count: number) => Array.from({ length: count }, (_, index) => first + index);
const percent = (part: number, of: number) => `${Math.round((100 * part) / of)} %`.padStart(6);

// 1. Nothing is wrong anywhere.
console.log(`\nWorlds without a fault, one look, false discovery rate ${percent(FALSE_DISCOVERY_RATE, 1).trim()}:`);
const without = (isUneven: boolean) =>
  seeds(1, WORLDS_WITHOUT_A_FAULT).map((seed) => {
    const given = playWorld({ seed, monthsBefore: 18, monthsAfter: 0, rate: 0.01, times: 1, isUneven }).asOf(0);
    return { hasSignal: findSignals(given).signals.length > 0, highest: highestRate(given), most: mostClaims(given) };
  });
const even = without(false);
for (const [name, worlds] of [["kits and vehicles alike", even], ["kits and vehicles that differ, and a winter cause", without(true)]] as const) {
  const signalled = worlds.filter(({ hasSignal }) => hasSignal).length;
  const { lower, upper } = wilsonInterval(signalled, worlds.length, 0.95);
  console.log(`  ${name}: ${signalled} of ${worlds.length} worlds have a signal, ${percent(signalled, worlds.length).trim()} (95 % interval ${percent(lower, 1).trim()} to ${percent(upper, 1).trim()})`);
}
const falseAlarms = even.filter(({ hasSignal }) => hasSignal).length;
const thresholds = { rate: thresholdFor(even.map(({ highest }) => highest)), claims: thresholdFor(even.map(({ most }) => most)) };
console.log(`  as many false alarms: more than ${(1000 * thresholds.rate).toFixed(1)} claims per 1,000 shipped in six months, or more than ${thresholds.claims} claims`);

// 2. One cause three times as often in one cell, from a month on.
console.log(`\nShare of ${WORLDS_WITH_A_FAULT} worlds in which the fault is found, by months since it came in (${FAULTY.unitsAMonth} units a month, three times the rate):`);
console.log(`  ${"rate".padEnd(7)}${"way".padEnd(46)}${LOOKS.map((months) => String(months).padStart(6)).join("")}`);
for (const rate of RATES) {
  const faulty = seeds(1000, WORLDS_WITH_A_FAULT).map((seed) => looksAt({ seed, rate, times: 3 }));
  const usual = seeds(5000, WORLDS_WITH_A_FAULT).map((seed) => looksAt({ seed, rate, times: 1 }));
  const print = (way: string, shares: readonly number[]) => console.log(`  ${`${rate * 100} %`.padEnd(7)}${way.padEnd(46)}${shares.map((share) => percent(share, 1)).join("")}`);
  const foundBy = (worlds: typeof faulty, isAlarm: (look: (typeof faulty)[number][number]) => boolean) =>
    LOOKS.map((_, last) => worlds.filter((looks) => looks.slice(0, last + 1).some(isAlarm)).length / worlds.length);
  print("the monthly list", foundBy(faulty.map(onlyWithList), ({ isListed }) => isListed));
  print("  a fixed rate of claims per unit", foundBy(faulty, ({ rate: here, claims }) => here > thresholds.rate && claims >= FEWEST_CLAIMS_OF_A_SIGNAL));
  print("  a fixed number of claims", foundBy(faulty, ({ claims }) => claims > thresholds.claims));

  const watched = foundBy(usual, ({ isWatchedOut }) => isWatchedOut).at(-1) ?? 0;
  print("the cell's own cumulative sum", foundBy(faulty, ({ isWatchedOut }) => isWatchedOut));
  // Two neighbouring thresholds, mixed so that both ways raise as many false alarms in six months.
  const alarms = (worlds: typeof faulty, threshold: number) => foundBy(worlds, ({ filedLastMonth }) => filedLastMonth >= threshold);
  let threshold = 1;
  while ((alarms(usual, threshold).at(-1) ?? 0) > watched) threshold += 1;
  const [looser, stricter] = [alarms(usual, threshold - 1).at(-1) ?? 1, alarms(usual, threshold).at(-1) ?? 0];
  const part = looser > stricter ? (watched - stricter) / (looser - stricter) : 0;
  const mixed = alarms(faulty, threshold).map((share, index) => (1 - part) * share + part * (alarms(faulty, threshold - 1)[index] ?? 0));
  print(`  ${threshold - 1} or ${threshold} claims a month`, mixed);
  console.log(`         false alarms of both within six months: ${percent(watched, 1).trim()}; stated: one in ${FALSE_ALARM_IN_LOOKS} months, which is ${percent(1 - (1 - 1 / FALSE_ALARM_IN_LOOKS) ** 6, 1).trim()} in six`);
}

/** What each way of looking sees at the end of each month since. */
function looksAt({ seed, rate, times }: { seed: number; rate: number; times: number }) {
  const world = playWorld({ seed, monthsBefore: MONTHS_BEFORE, monthsAfter: LOOKS.length, rate, times, isUneven: false });
  return LOOKS.map((months) => {
    const given = world.asOf(months);
    const recent = recentOf(given).get(`${FAULTY.kit} ${FAULTY.vehicle} ${FAULTY.cause}`) ?? { claims: 0, units: 1 };
    const watch = watchCell(given, { scope: cell, cause: FAULTY.cause, from: monthName(MONTHS_BEFORE) });
    return {
      given,
      isListed: false,
      isWatchedOut: watch?.signalled != null,
      filedLastMonth: watch?.months.at(-1)?.claims ?? 0,
      claims: recent.claims,
      rate: recent.claims / recent.units,
    };
  });
}

function onlyWithList(looks: ReturnType<typeof looksAt>) {
  let isFound = false;
  return looks.map((look) => {
    isFound ||= findSignals(look.given).signals.some(
      ({ cause, scope: { kitId, vehicleId, batch } }) => cause === FAULTY.cause && (batch === null ? kitId === FAULTY.kit && (vehicleId ?? FAULTY.vehicle) === FAULTY.vehicle : batch.startsWith("0-")),
    );
    return { ...look, isListed: isFound };
  });
}

/** By kit, vehicle and cause: units shipped in the last six months and their decided claims. */
function recentOf({ shipped, claims, today }: ShippedAndClaimed): ReadonlyMap<string, { claims: number; units: number }> {
  const isRecent = ({ month }: { month: string }) => monthNumber(month) > monthNumber(today.slice(0, 7)) - 6;
  const units = new Map<string, number>();
  for (const line of shipped) if (isRecent(line)) units.set(`${line.kitId} ${line.vehicleId}`, (units.get(`${line.kitId} ${line.vehicleId}`) ?? 0) + line.units);
  const recent = new Map<string, { claims: number; units: number }>();
  for (const line of claims) {
    if (!isRecent(line) || line.cause === null) continue;
    const place = `${line.kitId} ${line.vehicleId}`;
    const found = recent.get(`${place} ${line.cause}`) ?? { claims: 0, units: units.get(place) ?? 1 };
    recent.set(`${place} ${line.cause}`, { ...found, claims: found.claims + line.claims });
  }
  return recent;
}

function highestRate(given: ShippedAndClaimed): number {
  return Math.max(0, ...[...recentOf(given).values()].flatMap(({ claims, units }) => (claims >= FEWEST_CLAIMS_OF_A_SIGNAL ? claims / units : [])));
}

function mostClaims(given: ShippedAndClaimed): number {
  return Math.max(0, ...[...recentOf(given).values()].map(({ claims }) => claims));
}

/** The line that as many worlds without a fault cross as had a signal. */
function thresholdFor(highest: readonly number[]): number {
  return highest.toSorted((a, b) => b - a)[falseAlarms] ?? 0;
}
