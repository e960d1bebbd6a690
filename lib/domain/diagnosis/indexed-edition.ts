import type { CauseCode, Edition, MeasuredFinding, Observer, SignFinding } from "./knowledge";
import type { NoisyOrFinding } from "./noisy-or";

/** An edition with its causes named by their place, put together once: a ranking asks for the same figures again and again. */
export interface IndexedEdition {
  placeOf: ReadonlyMap<CauseCode, number>;
  /** Of the base figures, in the order of the causes. */
  baseLogOdds: readonly number[];
  sites: readonly SignFinding[];
  /** A finding's figures for one observer. */
  figuresFor: (definition: SignFinding | MeasuredFinding, observer: Observer) => NoisyOrFinding;
  /** "Wet somewhere" over these sites; see `claimNetwork`. */
  wetSomewhere: (sites: readonly SignFinding[]) => NoisyOrFinding;
}

/** Keeps what was computed for a key. */
function once<Key, Value>(cache: { get(key: Key): Value | undefined; set(key: Key, value: Value): unknown }, compute: (key: Key) => Value): (key: Key) => Value {
  return (key) => {
    const known = cache.get(key);
    if (known !== undefined) return known;
    const value = compute(key);
    cache.set(key, value);
    return value;
  };
}

const anyOf = (chances: readonly number[]) => chances.reduce((some, chance) => some + (1 - some) * chance, 0);

/** An edition in index form. Editions never change, so one that was indexed stays so. */
export const indexedEdition = once(new WeakMap<Edition, IndexedEdition>(), (edition): IndexedEdition => {
  const placeOf = new Map(edition.causes.map(({ code }, place) => [code, place]));
  const figuresOf = once(new WeakMap<SignFinding | MeasuredFinding, Record<Observer, NoisyOrFinding>>(), ({ background, links }) => {
    const by = (observer: Observer): NoisyOrFinding => ({
      leak: background[observer].value,
      links: links.flatMap(({ cause, strength }) => {
        const place = placeOf.get(cause);
        return place === undefined ? [] : [{ cause: place, strength: strength[observer].value }];
      }),
    });
    return { customer: by("customer"), technician: by("technician"), bench: by("bench") };
  });
  const sites = edition.findings.filter((definition): definition is SignFinding => definition.kind === "site");
  /** By the codes of the sites. */
  const wetOver = once(new Map<string, NoisyOrFinding>(), (codes) => {
    const each = sites.filter(({ code }) => codes.split(" ").includes(code)).map((site) => figuresOf(site).customer);
    return {
      leak: anyOf(each.map(({ leak }) => leak)),
      links: edition.causes.map((_, cause) => ({
        cause,
        strength: anyOf(each.flatMap(({ links }) => links.filter((link) => link.cause === cause).map(({ strength }) => strength))),
      })),
    };
  });
  return {
    placeOf,
    baseLogOdds: edition.causes.map(({ base }) => Math.log(base.value / (1 - base.value))),
    sites,
    figuresFor: (definition, observer) => figuresOf(definition)[observer],
    wetSomewhere: (unknown) => wetOver(unknown.map(({ code }) => code).join(" ")),
  };
});
