import { drawn, type Pattern, strengthOf } from "./signals-pattern";
import type { Atom, World } from "./signals-world";

export interface ExpectedClaims {
  claims: number;
  expected: number;
  /** Square of the standard error of the expected count in parts of it: of what it rests on, and of how kits differ anyway. */
  relativeVariance: number;
}

export interface Expectations {
  /** Of some atoms: what they brought of a cause, by its place, and what all the others lead to expect of them. */
  of(places: readonly number[]): (cause: number) => ExpectedClaims;
}

interface Tally {
  count: number;
  expected: number;
}
/** Atoms of one kit on one vehicle. */
interface Pair {
  kit: string;
  vehicle: string | null;
  places: number[];
}

const ROUNDS = 3;
/** A cause seen nowhere else is still expected a little (Jeffreys). */
const HALF_A_CLAIM = 0.5;

/**
 * What a part of the sales is to be expected to bring of each cause: by the age and season of its units, by how often
 * its kit has the cause on other vehicles and in other revisions, and its vehicle with other kits. Whatever is judged is
 * left out of what it is judged by, else a large cell would hide itself. Kit and vehicle count only as far as kits and
 * vehicles do differ, beyond chance.
 *
 * @param leftOut by cause: atoms known to go their own way, which none is judged by
 */
export function expectationsOf({ atoms, causes }: World, pattern: Pattern, leftOut: readonly ReadonlySet<number>[]): Expectations {
  const alone = causes.map((_, cause) => Float64Array.from(atoms, ({ units, month }) => units * pattern.perUnit(cause, month)));
  const counts = causes.map(() => new Float64Array(atoms.length));
  atoms.forEach(({ claims }, place) => {
    for (const { cause, count } of claims) {
      const ofCause = counts[cause];
      if (ofCause) ofCause[place] = (ofCause[place] ?? 0) + count;
    }
  });
  const tallyOf = (cause: number, places: readonly number[], skipped?: ReadonlySet<number>): Tally => {
    const { [cause]: came } = counts;
    const { [cause]: usual } = alone;
    const tally = { count: 0, expected: 0 };
    for (const place of places) if (!skipped?.has(place)) addTo(tally, came?.[place] ?? 0, usual?.[place] ?? 0);
    return tally;
  };

  const pairs = pairsOf(atoms, [...atoms.keys()]);
  const tallies = causes.map((_, cause) => pairs.map(({ kit, vehicle, places }) => ({ kit, vehicle, ...tallyOf(cause, places, leftOut[cause]) })));
  // Kit factors and vehicle factors lean on each other, so they are found in turns.
  let kits = factorsOf(tallies, ({ kit }) => kit, () => 1);
  let vehicles = factorsOf(tallies, ({ vehicle }) => vehicle, (cause, { kit }) => kits.of(cause, kit));
  for (let round = 1; round < ROUNDS; round += 1) {
    const byVehicle = vehicles;
    const byKit = factorsOf(tallies, ({ kit }) => kit, (cause, { vehicle }) => byVehicle.of(cause, vehicle));
    vehicles = factorsOf(tallies, ({ vehicle }) => vehicle, (cause, { kit }) => byKit.of(cause, kit));
    kits = byKit;
  }
  const usualOf = (cause: number, { kit, vehicle }: { kit: string; vehicle: string | null }) => kits.of(cause, kit) * vehicles.of(cause, vehicle);
  const asUsual = tallies.map((ofCause, cause) => ofCause.map((tally) => ({ count: tally.count, expected: tally.expected * usualOf(cause, tally) })));
  const totals = asUsual.map((ofCause) => ofCause.reduce((sum, { count, expected }) => ({ count: sum.count + count, expected: sum.expected + expected }), { count: 0, expected: 0 }));
  const pairStrengths = strengthsOf(asUsual);

  return {
    of(places) {
      const here = pairsOf(atoms, places);
      const withSameKit = here.map(({ kit }) => here.findIndex((other) => other.kit === kit));
      const withSameVehicle = here.map(({ vehicle }) => here.findIndex((other) => other.vehicle === vehicle));
      const units = places.reduce((sum, place) => sum + (atoms[place]?.units ?? 0), 0);
      return (cause) => {
        const nothing = (): Tally => ({ count: 0, expected: 0 });
        const ownOfKits = here.map(nothing);
        const ownOfVehicles = here.map(nothing);
        const own = nothing();
        here.forEach(({ kit, vehicle, places: ofPair }, place) => {
          const { count, expected } = tallyOf(cause, ofPair, leftOut[cause]);
          addTo(ownOfKits[withSameKit[place] ?? place], count, expected * vehicles.of(cause, vehicle));
          addTo(ownOfVehicles[withSameVehicle[place] ?? place], count, expected * kits.of(cause, kit));
          addTo(own, count, expected * usualOf(cause, { kit, vehicle }));
        });
        const total = totals[cause] ?? { count: 0, expected: 0 };
        const restCount = Math.max(0, total.count - own.count) + HALF_A_CLAIM;
        const level = restCount / (Math.max(0, total.expected - own.expected) + HALF_A_CLAIM);

        let claims = 0;
        let expected = 0;
        let variance = 0;
        here.forEach(({ kit, vehicle, places: ofPair }, place) => {
          const all = tallyOf(cause, ofPair);
          const byKit = kits.without(cause, kit, ownOfKits[withSameKit[place] ?? place]);
          const byVehicle = vehicles.without(cause, vehicle, ownOfVehicles[withSameVehicle[place] ?? place]);
          const part = all.expected * byKit.factor * byVehicle.factor;
          claims += all.count;
          expected += part;
          variance += part * (byKit.relativeVariance + byVehicle.relativeVariance);
        });
        // Claims on hardly any units elsewhere, a gap in the figures, must not lead to expect more than a claim a unit here.
        return { claims, expected: Math.min(units, expected * level), relativeVariance: (expected > 0 ? variance / expected : 0) + 1 / restCount + 1 / (pairStrengths[cause] ?? 1) };
      };
    },
  };
}

/** How many times the usual each kit, or each vehicle, has a cause. */
interface Factors {
  of(cause: number, name: string | null): number;
  /** The same from the rest, with how well it is known. */
  without(cause: number, name: string | null, part: Tally | undefined): { factor: number; relativeVariance: number };
}

function factorsOf<T extends Tally>(tallies: readonly (readonly T[])[], nameOf: (tally: T) => string | null, usual: (cause: number, tally: T) => number): Factors {
  const sums = tallies.map((ofCause, cause) => {
    const byName = new Map<string, Tally>();
    for (const tally of ofCause) {
      const name = nameOf(tally);
      if (name === null) continue;
      const sum = byName.get(name) ?? { count: 0, expected: 0 };
      byName.set(name, sum);
      addTo(sum, tally.count, tally.expected * usual(cause, tally));
    }
    return byName;
  });
  const strengths = strengthsOf(sums.map((byName) => [...byName.values()]));
  return {
    of(cause, name) {
      const tally = name === null ? undefined : sums[cause]?.get(name);
      return tally ? drawn(tally.count, tally.expected, strengths[cause] ?? 1) : 1;
    },
    without(cause, name, part) {
      const tally = name === null ? undefined : sums[cause]?.get(name);
      const count = Math.max(0, (tally?.count ?? 0) - (part?.count ?? 0));
      const expected = Math.max(0, (tally?.expected ?? 0) - (part?.expected ?? 0));
      const strength = strengths[cause] ?? 1;
      return { factor: drawn(count, expected, strength), relativeVariance: 1 / (count + strength) };
    },
  };
}

/**
 * How firmly the counts of each cause keep to the expected: as firmly as those of all causes together, or less where its
 * own spread further. Frost comes to some kits and not to others, and that alone is no fault of any of them.
 */
function strengthsOf(byCause: readonly (readonly Tally[])[]): readonly number[] {
  const ofAll = strengthOf(byCause.flat());
  return byCause.map((tallies) => Math.min(ofAll, strengthOf(tallies)));
}

function pairsOf(atoms: readonly Atom[], places: readonly number[]): readonly Pair[] {
  const pairs = new Map<string, Pair>();
  for (const place of places) {
    const atom = atoms[place];
    if (!atom) continue;
    const { kit, vehicle } = atom;
    const name = `${kit} ${vehicle}`;
    const pair = pairs.get(name);
    if (pair) pair.places.push(place);
    else pairs.set(name, { kit, vehicle, places: [place] });
  }
  return [...pairs.values()];
}

function addTo(sum: Tally | undefined, count: number, expected: number): void {
  if (!sum) return;
  sum.count += count;
  sum.expected += expected;
}
