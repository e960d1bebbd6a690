import type { Language } from "../claims/languages";
import { type NumberRange, possibleRange } from "../diagnosis/possible-range";
import { inFigures, type Say } from "../say";
import { type FieldUnit, type IntakeField, parseTypedNumber, unitField, withUnit } from "./fields";

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
}

/**
 * What is unusual about the number in a field; null where nothing is, or where it is no number.
 *
 * Example: a bore of 127 mm, usually 3 to 60 mm, is possible and waits for its tick.
 */
export function unusualNumber(field: IntakeField, values: TypedValues): UnusualNumber | null {
  const read = readUnusual(field, values);
  if (!read) return null;
  const typed = withUnit(read.written, read.unit.label);
  return { typed, isPossible: read.isPossible, isConfirmed: read.isPossible && values[confirmField(field.name)] === typed };
}

/**
 * What stands at a field with an unusual number: a question where it is possible, else why it is not; null where nothing
 * is unusual.
 *
 * Example: "127 mm is unusual here (usually 3 to 60 mm). Did you mean 12.7 mm, or is the unit wrong? ..."
 */
export function unusualSentence(field: IntakeField, values: TypedValues, say: Say): string | null {
  const read = readUnusual(field, values);
  if (!read) return null;
  return read.isPossible ? question(read, say) : refusal(read, say);
}

interface Reading {
  field: NumberField;
  written: string;
  value: number;
  unit: FieldUnit;
  isPossible: boolean;
}

function readUnusual(field: IntakeField, values: TypedValues): Reading | null {
  if (field.kind !== "number") return null;
  const written = values[field.name]?.trim() ?? "";
  const value = parseTypedNumber(written);
  const unit = field.units.find(({ value: known }) => known === values[unitField(field.name)]) ?? field.units[0];
  if (value === null || !unit || isWithin(field, value * unit.factor)) return null;
  return { field, written, value, unit, isPossible: isWithin(possibleRange(field), value * unit.factor) };
}

/**
 * What may have been meant: the decimal mark one or two places off, or the same number in another unit.
 *
 * Example: a bore of 0.5 mm: "5 mm", "0.5 in".
 */
export function likelyMeant(field: NumberField, typed: string, unit: FieldUnit, language: Language): string[] {
  const value = parseTypedNumber(typed);
  if (value === null) return [];
  const slipped = [value / 10, value * 10, value / 100, value * 100].find((other) => isWithin(field, other * unit.factor));
  const otherUnit = field.units.find((other) => other !== unit && isWithin(field, value * other.factor));
  return [...(slipped === undefined ? [] : [withUnit(inFigures(slipped, language), unit.label)]), ...(otherUnit ? [withUnit(typed, otherUnit.label)] : [])];
}

function question({ field, written, unit }: Reading, say: Say): string {
  const [one, other] = likelyMeant(field, written, unit, say.language);
  const meant = one !== undefined && other !== undefined ? say("browser.unusual.either", { one, other }) : one;
  const isUnitDoubted = field.units.length > 1 && other === undefined;
  const guess =
    meant !== undefined
      ? say(isUnitDoubted ? "browser.unusual.meantOrUnit" : "browser.unusual.meant", { meant })
      : say(isUnitDoubted ? "browser.unusual.unit" : "browser.unusual.written");
  // The bounds are round in the unit they are kept in, and said about in any other.
  const bound = (stored: number) => inFigures(stored / unit.factor, say.language, unit.factor === 1 ? 3 : 2);
  return say("browser.unusual.question", { typed: withUnit(written, unit.label), from: bound(field.min), to: withUnit(bound(field.max), unit.label), guess });
}

function refusal({ field, value, unit }: Reading, say: Say): string {
  const what = field.what ?? say("browser.unusual.this");
  const possible = possibleRange(field);
  if (value < 0 && possible.min >= 0) return say("browser.unusual.negative", { what });
  const isBelow = value * unit.factor < possible.min;
  const bound = withUnit(inFigures((isBelow ? possible.min : possible.max) / unit.factor, say.language), unit.label);
  return say(isBelow ? "browser.unusual.below" : "browser.unusual.above", { what, bound });
}

const isWithin = ({ min, max }: NumberRange, stored: number) => stored >= min && stored <= max;
