import type { Language } from "../claims/languages";
import type { FindingDefinition } from "../diagnosis/knowledge";
import type { Say } from "../say";
import { answer, type IntakeAnswers } from "./answers";
import { type IntakeField, isShown, unitField, withUnit } from "./fields";
import { RUN_UNITS, unitInWords } from "./screens";

/** One question with its answer in words; null where it was left out. */
export interface ShownAnswer {
  field: string;
  question: string;
  answer: string | null;
}

/** The answers of a screen as they are read back: before filing, and on the private page. */
export function shownAnswers(fields: readonly IntakeField[], values: Readonly<Record<string, string>>): ShownAnswer[] {
  return fields.filter((field) => isShown(field, values)).map((field) => ({ field: field.name, question: field.question ?? field.label, answer: inWords(field, values) }));
}

function inWords(field: IntakeField, values: Readonly<Record<string, string>>): string | null {
  const value = values[field.name];
  if (!value) return null;
  if (field.kind === "choice" || field.kind === "select") return field.options.find((option) => option.value === value)?.label ?? value;
  if (field.kind !== "number") return value;
  const unit = field.units.find((known) => known.value === values[unitField(field.name)]) ?? field.units[0];
  return withUnit(value, unit?.label ?? "");
}

/** How far it has run, as it was typed; where nothing was, in whole kilometres or hours. */
export function runInWords({ answers, hoursRun, distanceKm }: { answers: IntakeAnswers; hoursRun: number | null; distanceKm: number | null }, say: Say): string | null {
  const typed = answer(answers, "fitting", "run");
  if (typed) {
    const unit = RUN_UNITS.find(({ value }) => value === answer(answers, "fitting", unitField("run"))) ?? RUN_UNITS[0];
    return withUnit(typedIn(say.language, typed), unitInWords(unit, say));
  }
  const whole = (value: number | null, unit: string) => (value === null ? null : withUnit(Math.round(value).toLocaleString(say.language), unitInWords({ value: unit, label: unit }, say)));
  const kept = [whole(hoursRun, "h"), whole(distanceKm, "km")];
  return kept.filter(Boolean).join(", ") || null;
}

/**
 * A number as it was typed, with the decimal sign of whoever reads it: of what the bench typed with a point a German letter
 * tells with a comma. All else stays, a nought at the end and a fraction too, since it tells how well it was read.
 *
 * Example: "0.350" is "0,350" in German.
 */
function typedIn(language: Language, typed: string): string {
  const sign = new Intl.NumberFormat(language).formatToParts(0.5).find(({ type }) => type === "decimal")?.value ?? ".";
  return typed.replace(/(\d)[.,](?=\d)/, `$1${sign}`);
}

/** A kept finding in words: the option's label, or the number as it was typed; null for what was not known. */
export function shownFinding(
  definition: FindingDefinition,
  finding: { answer: string | null; measured: number | null; typedValue: string | null; typedUnit: string | null },
  say: Say,
): string | null {
  if (finding.measured !== null) {
    const unit = definition.kind === "measurement" ? definition.unit : "";
    const amount = (number: string, value: string) => withUnit(number, unitInWords({ value, label: value }, say));
    return finding.typedValue !== null
      ? amount(typedIn(say.language, finding.typedValue), finding.typedUnit ?? unit)
      : amount(finding.measured.toLocaleString(say.language, { useGrouping: false, maximumSignificantDigits: 12 }), unit);
  }
  return definition.options.find(({ value }) => value === finding.answer)?.label ?? null;
}
