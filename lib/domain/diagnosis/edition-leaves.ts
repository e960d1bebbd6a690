import type { Edition, Provenance } from "./knowledge";

/** One thing an edition states: a figure with where it comes from, a word, a list of words. */
export interface EditionLeaf {
  value: string | number | boolean | null;
  /** Of a figure, and of a limit. */
  provenance: Provenance | null;
}

type Plain = string | number | boolean | null;

const isPlain = (value: unknown): value is Plain => value === null || ["string", "number", "boolean"].includes(typeof value);

/**
 * What tells one element of a list from the others, so that a thing keeps its name when others come or go: its code,
 * the cause it links, the option and cause it shifts, an option's value; else its place.
 *
 * Example: the link of F12 to C01 is `findings.F12.links.C01`.
 */
export function elementName(element: unknown, place: number): string {
  if (typeof element !== "object" || element === null) return String(place);
  const one = element as Readonly<Record<string, unknown>>;
  if (typeof one.code === "string") return one.code;
  if (typeof one.kit === "string") return [one.kit, one.vehicle ?? "any vehicle", one.cause].join(":");
  if (typeof one.cause === "string") return typeof one.option === "string" ? `${one.option}:${one.cause}` : one.cause;
  return typeof one.value === "string" ? one.value : String(place);
}

function collect(value: unknown, name: string, leaves: Map<string, EditionLeaf>, provenance: Provenance | null): void {
  if (isPlain(value)) {
    leaves.set(name, { value, provenance });
  } else if (Array.isArray(value)) {
    if (value.every(isPlain)) leaves.set(name, { value: value.join(", "), provenance: null });
    else for (const [place, element] of value.entries()) collect(element, `${name}.${elementName(element, place)}`, leaves, null);
  } else if (typeof value === "object" && value !== null) {
    const { provenance: own, ...rest } = value as Readonly<Record<string, unknown>>;
    for (const [key, inner] of Object.entries(rest)) {
      const isFigure = key === "value" && own !== undefined;
      // Whatever has a provenance went through the edition's schema.
      collect(inner, name ? `${name}.${key}` : key, leaves, isFigure ? (own as Provenance) : null);
    }
  }
}

/**
 * Everything an edition states, by a name that stays the same from edition to edition, in the document's order. The
 * number of the edition is no part of it.
 *
 * Example: `causes.C01.base.value` is 0.0031, by judgement.
 */
export function leavesOf({ number: _, ...edition }: Edition): Map<string, EditionLeaf> {
  const leaves = new Map<string, EditionLeaf>();
  collect(edition, "", leaves, null);
  return leaves;
}
