import { type NumberRange, possibleRange } from "../diagnosis/possible-range";
import { type FieldUnit, type IntakeField, parseTypedNumber, unitField } from "./fields";

type NumberField = IntakeField & { kind: "number" };
/** What a form holds, by the names of its fields. */
export type TypedValues = Readonly<Record<string, string | undefined>>;

/** The tick of a number field that says: unusual, but right. Its value is the number with its unit, so that it holds for no other. */
export const confirmField = (name: string) => `${name}-confirmed`;

/** Note of a finding whose number was asked about. */
export const CONFIRMED_AS_UNUSUAL = "unusual, confirmed when it was written";

/** A number outside its usual range. */
export interface UnusualNumber {
  /** As it was typed, with its unit: "127 mm". */
  typed: string;
  isPossible: boolean;
  isConfirmed: boolean;
  /** What stands at the field: a question where it is possible, else why it is not. */
  message: string;
}

/**
 * What is unusual about the number in a field; null where nothing is, or where it is no number.
 *
 * Example: a bore of 127 mm: "127 mm is unusual here (usually 3 to 60 mm). Did you mean 12.7 mm, or is the unit wrong? ..."
 */
export function unusualNumber(field: IntakeField, values: TypedValues): UnusualNumber | null {
  if (field.kind !== "number") return null;
  const written = values[field.name]?.trim() ?? "";
  const value = parseTypedNumber(written);
  const unit = field.units.find(({ value: known }) => known === values[unitField(field.name)]) ?? field.units[0];
  if (value === null || !unit || isWithin(field, value * unit.factor)) return null;
  const typed = withUnit(written, unit);
  const possible = possibleRange(field);
  const isPossible = isWithin(possible, value * unit.factor);
  const message = isPossible ? question(field, written, unit) : refusal(field.what ?? "This", possible, value, unit);
  return { typed, isPossible, isConfirmed: isPossible && values[confirmField(field.name)] === typed, message };
}

/**
 * What may have been meant: the decimal mark one or two places off, or the same number in another unit.
 *
 * Example: a bore of 0.5 mm: "5 mm", "0.5 in".
 */
export function likelyMeant(field: NumberField, typed: string, unit: FieldUnit): string[] {
  const value = parseTypedNumber(typed);
  if (value === null) return [];
  const slipped = [value / 10, value * 10, value / 100, value * 100].find((other) => isWithin(field, other * unit.factor));
  const otherUnit = field.units.find((other) => other !== unit && isWithin(field, value * other.factor));
  return [...(slipped === undefined ? [] : [withUnit(shown(slipped), unit)]), ...(otherUnit ? [withUnit(typed, otherUnit)] : [])];
}

function question(field: NumberField, written: string, unit: FieldUnit): string {
  const usual = withUnit(`${shown(field.min / unit.factor)} to ${shown(field.max / unit.factor)}`, unit);
  const meant = likelyMeant(field, written, unit);
  const isUnitDoubted = field.units.length > 1 && meant.length < 2;
  const guess = meant.length > 0 ? `Did you mean ${meant.join(" or ")}${isUnitDoubted ? ", or is the unit wrong" : ""}?` : isUnitDoubted ? "Is the unit wrong?" : "Is it written wrong?";
  return `${withUnit(written, unit)} is unusual here (usually ${usual}). ${guess} Write it again, or tick that it is right`;
}

function refusal(what: string, possible: NumberRange, value: number, unit: FieldUnit): string {
  if (value < 0 && possible.min >= 0) return `${what} cannot be negative`;
  const [side, bound] = value * unit.factor < possible.min ? ["below", possible.min] : ["above", possible.max];
  return `${what} cannot be ${side} ${withUnit(shown(bound / unit.factor), unit)}`;
}

const isWithin = ({ min, max }: NumberRange, stored: number) => stored >= min && stored <= max;
const withUnit = (number: string, { label }: FieldUnit) => `${number} ${label}`.trim();
const shown = (value: number) => String(Number(value.toPrecision(3)));
