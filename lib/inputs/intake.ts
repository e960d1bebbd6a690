import * as z from "zod/mini";
import { type IntakeField, isShown, LONGEST, storedNumber, twoReadings, unitField } from "@/lib/domain/intake/fields";
import { confirmField, unusualNumber } from "@/lib/domain/intake/unusual-number";
import { lineSchema, linesSchema } from "./text";

/** What was typed on one screen, trimmed; keys are the field names. */
export type ScreenValues = Record<string, string>;

/** Longer than anything a field offers. */
const typed = () => lineSchema(LONGEST.code);

function valueSchema(field: IntakeField): z.ZodMiniType<string, string> {
  switch (field.kind) {
    case "choice":
    case "select": {
      const known = field.options.map(({ value }) => value);
      return typed().check(z.refine((value) => value === "" || known.includes(value), "Choose one of the answers"));
    }
    case "text":
      return (field.lines ? linesSchema : lineSchema)(field.longest).check(
        z.refine((value) => value === "" || field.signs !== "code" || /^[\p{L}\p{N}\s./_#-]+$/u.test(value), "Use letters, numbers and hyphens only, as printed"),
      );
    case "email":
      return lineSchema(LONGEST.email).check(
        z.refine((value) => value === "" || isPlainEmail(value), "Write an e-mail address in the form name@example.com"),
      );
    case "phone":
      return lineSchema(LONGEST.phone).check(
        z.refine((value) => value === "" || /^[+\d][\d\s()./-]{3,}$/.test(value), "Write a telephone number in figures, such as +49 30 901820"),
      );
    case "date":
      return typed().check(
        z.refine((value) => value === "" || isDay(value), "Write the date as a day that exists, such as 2026-03-27"),
        z.refine((value) => !isDay(value) || value <= field.latest, "The date lies in the future"),
        z.refine((value) => !isDay(value) || value >= "1970-01-01", "The date is too long ago"),
      );
    case "number":
      return lineSchema(LONGEST.number);
  }
}

/**
 * The schema of a screen, for the browser and the server alike: every message stands at a field. Values stay as typed.
 */
export function screenSchema(fields: readonly IntakeField[]) {
  const shape: Record<string, z.ZodMiniType<string, string>> = {};
  for (const field of fields) {
    shape[field.name] = z._default(valueSchema(field), "") as unknown as z.ZodMiniType<string, string>;
    if (field.kind !== "number") continue;
    for (const beside of [unitField(field.name), confirmField(field.name)]) shape[beside] = z._default(typed(), "") as unknown as z.ZodMiniType<string, string>;
  }
  return z.object(shape).check((context) => {
    const values = context.value as ScreenValues;
    const refuse = (field: IntakeField, message: string) => context.issues.push({ code: "custom", message, path: [field.name], input: values[field.name] });
    for (const field of fields) {
      const value = values[field.name] ?? "";
      if (!isShown(field, values)) continue;
      if (value === "") {
        if (field.missing) refuse(field, field.missing);
      } else if (field.kind === "number") {
        const unit = field.units.find(({ value: known }) => known === values[unitField(field.name)]) ?? field.units[0];
        const stored = storedNumber(field, value, unit?.value);
        const readings = twoReadings(field, value, unit?.value);
        if (readings) refuse(field, `This can be read in two ways. Write ${readings.join(" or ")}`);
        else if (stored === null) refuse(field, "Write a number in figures, such as 12.5");
        else {
          const unusual = unusualNumber(field, values);
          if (unusual && !unusual.isConfirmed) refuse(field, unusual.message);
        }
      }
    }
  });
}

/** A plain ASCII address after compatibility folding, so that no look-alike sign reaches a mail header. */
function isPlainEmail(value: string): boolean {
  return value.length <= LONGEST.email && /^[A-Za-z0-9.!#$%&'*+/=?^_`{|}~-]+@[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z0-9])?(?:\.[A-Za-z0-9](?:[A-Za-z0-9-]*[A-Za-z0-9])?)+$/.test(value) && value.normalize("NFKC") === value;
}

function isDay(value: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(value)) return false;
  const day = new Date(`${value}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(value);
}

/** One message a field, the first; in the order of the fields. */
export function messagesOf(refused: { issues: readonly { path: readonly PropertyKey[]; message: string }[] }): Record<string, string> {
  const messages: Record<string, string> = {};
  for (const { path, message } of refused.issues) messages[String(path[0])] ??= message;
  return messages;
}

/** The typed values of a screen out of a posted form: only its own fields, each as a string. */
export function typedValues(fields: readonly IntakeField[], form: FormData): ScreenValues {
  const names = fields.flatMap((field) => (field.kind === "number" ? [field.name, unitField(field.name), confirmField(field.name)] : [field.name]));
  return Object.fromEntries(names.map((name) => [name, stringOf(form.get(name))]));
}

const stringOf = (value: FormDataEntryValue | null) => (typeof value === "string" ? value : "");
