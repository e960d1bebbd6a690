import type { World } from "./signals-world";

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

/** A fault that came in lately drowns in years of good shipments, so what was shipped in these last months is looked at by itself too. */
const RECENT_MONTHS = 6;

/**
 * All that is looked at: each kit, each kit on each vehicle, the same by revision, and each batch; each over the whole
 * period and over the last months of shipping. What would be the same units twice is looked at once, under the plainest name.
 */
export function scopesOf({ atoms, lastMonth }: World): readonly Scope[] {
  const scopes = new Map<string, Scope & { atoms: number[] }>();
  const recentFrom = lastMonth - RECENT_MONTHS + 1;
  atoms.forEach(({ kit, revision, vehicle, batch, month }, place) => {
    const names = [
      ...(vehicle === null ? [] : [{ kit, revision: null, vehicle, batch: null }]),
      { kit, revision: null, vehicle: null, batch: null },
      ...(vehicle === null ? [] : [{ kit, revision, vehicle, batch: null }]),
      { kit, revision, vehicle: null, batch: null },
      ...(batch === null ? [] : [{ kit: null, revision: null, vehicle: null, batch }]),
    ];
    for (const shippedFrom of month >= recentFrom ? [null, recentFrom] : [null])
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
  return name + (shippedFrom === null ? 0 : 10);
}
