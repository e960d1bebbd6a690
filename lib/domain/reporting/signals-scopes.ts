import type { Month } from "./month";
import { monthNumber, monthOfNumber, type World } from "./signals-world";

/** Which part of the sales; what is null is not narrowed. */
export interface SignalScope {
  kitId: string | null;
  kitRevisionId: string | null;
  vehicleId: string | null;
  batch: string | null;
  /** Only what was shipped from this month on. */
  shippedFrom: Month | null;
}

/** What a signal can be about. Null: all of them. */
export interface Scope {
  kit: string | null;
  revision: string | null;
  vehicle: string | null;
  batch: string | null;
  /** Only what was shipped from this counted month on; null: all. */
  shippedFrom: number | null;
  /** Places of its atoms. */
  atoms: readonly number[];
}

/** A fault that came in lately drowns in years of good shipments, so what was shipped in the last months is looked at by itself too. */
const RECENT_MONTHS = [6, 3] as const;

/**
 * All that is looked at: each kit, each kit on each vehicle, the same by revision, and each batch; each over the whole
 * period and over the last six and three months of shipping. What would be the same units twice is looked at once, under the plainest name.
 */
export function scopesOf({ atoms, lastMonth }: World): readonly Scope[] {
  const scopes = new Map<string, Scope & { atoms: number[] }>();
  atoms.forEach(({ kit, revision, vehicle, batch, month }, place) => {
    const names = [
      ...(vehicle === null ? [] : [{ kit, revision: null, vehicle, batch: null }]),
      { kit, revision: null, vehicle: null, batch: null },
      ...(vehicle === null ? [] : [{ kit, revision, vehicle, batch: null }]),
      { kit, revision, vehicle: null, batch: null },
      ...(batch === null ? [] : [{ kit: null, revision: null, vehicle: null, batch }]),
    ];
    for (const shippedFrom of [null, ...RECENT_MONTHS.map((months) => lastMonth - months + 1).filter((from) => month >= from)])
      names.forEach((name) => {
        const key = `${shippedFrom} ${name.kit} ${name.revision} ${name.vehicle} ${name.batch}`;
        const scope = scopes.get(key) ?? { ...name, shippedFrom, atoms: [] };
        scopes.set(key, scope);
        scope.atoms.push(place);
      });
  });
  const seen = new Set<string>();
  return [...scopes.values()]
    .sort((a, b) => plainness(a) - plainness(b))
    .filter(({ atoms: places }) => {
      const sameUnits = `${places.length} ${places.reduce((sum, place) => sum + place, 0)} ${places.reduce((sum, place) => sum + place * place, 0)}`;
      return !seen.has(sameUnits) && seen.add(sameUnits);
    });
}

function plainness({ shippedFrom, revision, vehicle, batch }: Scope): number {
  const name = batch !== null ? 4 : revision === null ? (vehicle === null ? 1 : 0) : vehicle === null ? 3 : 2;
  return name + (shippedFrom === null ? 0 : 10 + shippedFrom / 1e6);
}

export function named({ kit, revision, vehicle, batch, shippedFrom }: Scope): SignalScope {
  return { kitId: kit, kitRevisionId: revision, vehicleId: vehicle, batch, shippedFrom: shippedFrom === null ? null : monthOfNumber(shippedFrom) };
}

/** Places of the atoms within a part of the sales. */
export function placesWithin({ atoms }: World, { kitId, kitRevisionId, vehicleId, batch, shippedFrom }: SignalScope): readonly number[] {
  const from = shippedFrom === null ? Number.NEGATIVE_INFINITY : monthNumber(shippedFrom);
  return atoms.flatMap((atom, place) =>
    (kitId === null || atom.kit === kitId) &&
    (kitRevisionId === null || atom.revision === kitRevisionId) &&
    (vehicleId === null || atom.vehicle === vehicleId) &&
    (batch === null || atom.batch === batch) &&
    atom.month >= from
      ? [place]
      : [],
  );
}
