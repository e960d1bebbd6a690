import type { CautionCode } from "../diagnosis/knowledge";
import type { OilPathPart } from "../diagnosis/oil-path";

/** Longest values a field takes, in characters. Longer ones are refused, not cut. */
export const LONGEST = { name: 100, words: 4000, email: 254, phone: 40, code: 60, number: 20 } as const;

export interface FieldOption {
  value: string;
  label: string;
  detail?: string;
  /** Parts of the oil path it speaks of, for the drawing and the balloons. */
  parts?: readonly OilPathPart[];
}

/** A unit a number may be typed in. */
export interface FieldUnit {
  value: string;
  label: string;
  /** Times this gives the stored unit. */
  factor: number;
}

interface FieldBase {
  name: string;
  label: string;
  /** The label without that it may be left out. */
  question?: string;
  hint?: string;
  /** How to look, folded away. */
  how?: string;
  /** The message when nothing is given; a field without one is optional. */
  missing?: string;
  /** Asked only while another field of the screen has one of these values. */
  shownWhen?: { field: string; values: readonly string[] };
}

export type IntakeField = FieldBase &
  (
    | { kind: "choice"; options: readonly FieldOption[]; drawing?: boolean }
    | { kind: "select"; options: readonly FieldOption[] }
    | { kind: "text"; longest: number; lines?: number; autoComplete?: string; signs?: "letters" | "code" }
    | { kind: "email" }
    | { kind: "phone" }
    | { kind: "date"; latest: string }
    | {
        kind: "number";
        units: readonly FieldUnit[];
        /** What it usually is, in the stored unit. */
        min: number;
        max: number;
        storedUnit: string;
        /** What is measured, for a sentence that refuses. */
        what?: string;
      }
  );

/** Most photos of one claim, and the largest of them as sent. */
export const MOST_PHOTOS = 12;
export const MOST_PHOTO_BYTES = 25 * 1024 * 1024;

/** One screen as put to the customer. */
export interface IntakeScreen {
  title: string;
  lead?: string;
  cautions: readonly CautionCode[];
  fields: readonly IntakeField[];
}

/** A number with its unit as they are read: "12 mm", "3°", "2". */
export const withUnit = (number: string, unit: string) => (unit === "\u00b0" ? `${number}${unit}` : `${number} ${unit}`.trim());

/** The unit switch of a number field. */
export const unitField = (name: string) => `${name}-unit`;

/** Whether a field is asked for, given what is typed in the others. */
export function isShown(field: IntakeField, values: Readonly<Record<string, string | undefined>>): boolean {
  return field.shownWhen === undefined || field.shownWhen.values.includes(values[field.shownWhen.field] ?? "");
}

/**
 * A number as people type it: a comma or a point before the decimals and spaces anywhere, or a fraction as inches are
 * told. Null when it is none.
 *
 * @example parseTypedNumber("12,5") // 12.5
 * @example parseTypedNumber("1 1/2") // 1.5
 */
export function parseTypedNumber(typed: string): number | null {
  // A fraction that is one sign, such as \u00bd, unfolds to its figures.
  const fraction = /^\s*(?:(\d{1,3})[\s-]+)?(\d{1,3})[/\u2044]([1-9]\d{0,2})\s*$/.exec(typed.replace(/[\u00bc-\u00be\u2150-\u215e]/g, (sign) => ` ${sign.normalize("NFKC")}`));
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  const bare = typed.replace(/[\s\u00a0\u202f]/g, "");
  return /^[-\u2212]?\d{1,9}([.,]\d{1,6})?$/.test(bare) ? Number(bare.replace(",", ".").replace("\u2212", "-")) : null;
}

/**
 * The two ways to read a number whose one mark may part thousands or decimals, or null when only one can be meant: the
 * other is more than the field takes.
 *
 * @example two readings of "1.200" km: ["1200", "1.2"]; of "1.125" in: null
 */
export function twoReadings(field: IntakeField & { kind: "number" }, typed: string, unit: string | undefined): [string, string] | null {
  const [, thousands = "", rest = ""] = /^([1-9]\d{0,2})[.,](\d{3})$/.exec(typed.trim()) ?? [];
  const large = storedNumber(field, thousands + rest, unit);
  return large === null || large > field.max ? null : [thousands + rest, String(Number(`${thousands}.${rest}`))];
}

/** A typed number in the field's stored unit, or null when it is no number. */
export function storedNumber(field: IntakeField & { kind: "number" }, typed: string, unit: string | undefined): number | null {
  const value = parseTypedNumber(typed);
  const chosen = field.units.find(({ value: known }) => known === unit) ?? field.units[0];
  return value === null || !chosen ? null : value * chosen.factor;
}
