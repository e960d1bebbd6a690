import * as z from "zod/mini";
import { type IntakeField, isShown, LONGEST, storedNumber, twoReadings, unitField } from "@/lib/domain/intake/fields";
import { wayField } from "@/lib/domain/intake/roundabout-reading";
import { confirmField, unusualNumber, unusualSentence } from "@/lib/domain/intake/unusual-number";
import type { Say } from "@/lib/domain/say";
import { lineSchema, linesSchema } from "./text";

/** What was typed on one screen, trimmed; keys are the field names. */
export type ScreenValues = Record<string, string>;

// Worded when it is needed: a phone takes a tenth of a second to make ready how numbers are written.
const tooLong = (most: number, say: Say) => () => say("browser.error.tooLong", { most: most.toLocaleString(say.language) });
const line = (longest: number, say: Say) => lineSchema(longest, undefined, tooLong(longest, say));

function valueSchema(field: IntakeField, say: Say): z.ZodMiniType<string, string> {
  switch (field.kind) {
    case "choice":
    case "select": {
      const known = field.options.map(({ value }) => value);
      return line(LONGEST.code, say).check(z.refine((value) => value === "" || known.includes(value), say("browser.error.choice")));
    }
    case "text":
      return (field.lines ? linesSchema : lineSchema)(field.longest, undefined, tooLong(field.longest, say)).check(
        z.refine((value) => value === "" || field.signs !== "code" || /^[\p{L}\p{N}\s./_#-]+$/u.test(value), say("browser.error.code")),
      );
    case "email":
      return line(LONGEST.email, say).check(
        z.refine((value) => value === "" || isPlainEmail(value), say("browser.error.email")),
      );
    case "phone":
      return line(LONGEST.phone, say).check(
        z.refine((value) => value === "" || /^[+\d][\d\s()./-]{3,}$/.test(value), say("browser.error.phone")),
      );
    case "date":
      return line(LONGEST.code, say).check(
        z.refine((value) => value === "" || isDay(value), say("browser.error.date")),
        z.refine((value) => !isDay(value) || value <= field.latest, say("browser.error.future")),
        z.refine((value) => !isDay(value) || value >= "1970-01-01", say("browser.error.longAgo")),
      );
    case "number":
      return line(LONGEST.number, say);
  }
}

/**
 * The schema of a screen, for the browser and the server alike: every message stands at a field, in the words of
 * `say`. Values stay as typed.
 */
export function screenSchema(fields: readonly IntakeField[], say: Say) {
  const shape: Record<string, z.ZodMiniType<string, string>> = {};
  for (const field of fields) {
    shape[field.name] = z._default(valueSchema(field, say), "") as unknown as z.ZodMiniType<string, string>;
    if (field.kind !== "number") continue;
    for (const beside of [unitField(field.name), confirmField(field.name), wayField(field.name)]) shape[beside] = z._default(line(LONGEST.code, say), "") as unknown as z.ZodMiniType<string, string>;
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
        if (readings) refuse(field, say("browser.error.twoReadings", { one: readings[0], other: readings[1] }));
        else if (stored === null) refuse(field, say("browser.error.number"));
        else {
          const unusual = unusualNumber(field, values);
          if (unusual && !unusual.isConfirmed) refuse(field, unusualSentence(field, values, say) ?? "");
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
  const names = fields.flatMap((field) => (field.kind === "number" ? [field.name, unitField(field.name), confirmField(field.name), wayField(field.name)] : [field.name]));
  return Object.fromEntries(names.map((name) => [name, stringOf(form.get(name))]));
}

const stringOf = (value: FormDataEntryValue | null) => (typeof value === "string" ? value : "");
