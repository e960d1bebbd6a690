import type { FindingCode } from "../diagnosis/knowledge";
import { spreadOfBore } from "./bore-from-outside";
import { type IntakeField, storedNumber, unitField } from "./fields";
import { WAY_NOTES, wayOf } from "./roundabout-reading";
import { CONFIRMED_AS_UNUSUAL, unusualNumber } from "./unusual-number";

/** What was found under one question: an answer, or a number in the stored unit with what was typed. */
export interface TypedFinding {
  code: FindingCode;
  answer: string | null;
  measured: number | null;
  typedValue?: string;
  typedUnit?: string;
  /** One standard deviation, where the number was come by in a roundabout way. */
  spread?: number;
  /** That an unusual number was asked about and is right, and how a number was come by. */
  note?: string;
}

/**
 * The finding of a question's field, whose name is its code, from the values its schema let through.
 *
 * Example: F41 typed as "0,31" in mm gives measured 0.31, typed value "0,31" and typed unit "mm".
 */
export function typedFinding(field: IntakeField, values: Readonly<Record<string, string>>): TypedFinding {
  const code = field.name;
  const typed = values[code] ?? "";
  if (field.kind !== "number") return { code, answer: typed, measured: null };
  const unit = values[unitField(code)] || field.storedUnit;
  const way = wayOf(code, values);
  const note = [...(way ? [WAY_NOTES[way]] : []), ...(unusualNumber(field, values)?.isConfirmed ? [CONFIRMED_AS_UNUSUAL] : [])].join("; ");
  return { code, answer: null, measured: storedNumber(field, typed, unit), typedValue: typed, typedUnit: unit, ...(way ? { spread: spreadOfBore(way) } : {}), ...(note ? { note } : {}) };
}
