import type { ReactNode } from "react";
import { describedBy, Field } from "@/app/_components/field";
import { asTyped, type Edits, scaleOf } from "@/lib/domain/diagnosis/edition-edits";
import type { EditionLeaf } from "@/lib/domain/diagnosis/edition-leaves";
import type { EditionIssue } from "@/lib/inputs/edition";
import { provenanceInWords } from "@/lib/domain/diagnosis/provenance-words";

/** What the forms of a draft are filled in from. */
export interface DraftFields {
  /** As it stands in the basis, by name. */
  leaves: ReadonlyMap<string, EditionLeaf>;
  typed: Edits;
  issues: readonly EditionIssue[];
}

const messageAt = ({ issues }: DraftFields, field: string) => issues.find(({ path }) => path === field)?.message;
const valueAt = ({ leaves, typed }: DraftFields, field: string) => typed[field] ?? asTyped(field, leaves.get(field)?.value ?? "");

/** What was typed differs from the basis: that stands beside the field. */
function before({ leaves, typed }: DraftFields, field: string): string | undefined {
  const leaf = leaves.get(field);
  return field in typed && leaf ? `was ${asTyped(field, leaf.value)}` : undefined;
}

/** A field of one line, or of several. */
export function TextField({ fields, field, label, rows = 1 }: { fields: DraftFields; field: string; label: ReactNode; rows?: number }) {
  const [hint, error] = [before(fields, field), messageAt(fields, field)];
  const shared = { ...describedBy(field, { hint: hint !== undefined, error }), name: field, defaultValue: valueAt(fields, field) };
  return (
    <Field id={field} label={label} hint={hint} error={error}>
      {rows > 1 ? <textarea {...shared} rows={rows} maxLength={2000} /> : <input {...shared} maxLength={2000} autoComplete="off" />}
    </Field>
  );
}

const UNITS: Readonly<Record<number, string>> = { 1000: ", of 1,000", 100: ", of 100", 1: "" };

export function NumberField({ fields, field, label }: { fields: DraftFields; field: string; label: ReactNode }) {
  const [hint, error] = [before(fields, field), messageAt(fields, field)];
  return (
    <Field
      id={field}
      label={
        <>
          {label}
          {UNITS[scaleOf(field)]}
        </>
      }
      hint={hint}
      error={error}
    >
      <input {...describedBy(field, { hint: hint !== undefined, error })} name={field} inputMode="decimal" defaultValue={valueAt(fields, field)} autoComplete="off" />
    </Field>
  );
}

export function ChoiceField({ fields, field, label, options }: { fields: DraftFields; field: string; label: ReactNode; options: readonly (readonly [value: string, words: string])[] }) {
  const [hint, error] = [before(fields, field), messageAt(fields, field)];
  return (
    <Field id={field} label={label} hint={hint} error={error}>
      <select {...describedBy(field, { hint: hint !== undefined, error })} name={field} defaultValue={valueAt(fields, field)}>
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
}

/** Where the figures at a place come from: as it was, or as it is told now. */
export function GroundFields({ fields, place, figure }: { fields: DraftFields; place: string; figure: string }) {
  const provenance = fields.leaves.get(figure)?.provenance;
  return (
    <>
      <ChoiceField
        fields={fields}
        field={`${place}.provenance.kind`}
        label="Comes from"
        options={[
          ["", provenance ? `as it was: ${provenanceInWords(provenance)}` : "say where from"],
          ["published", "published"],
          ["common practice", "common practice"],
          ["judgement", "judgement"],
        ]}
      />
      <TextField fields={fields} field={`${place}.provenance.note`} label="Source, or a word on it" />
    </>
  );
}

/** A tick that takes a thing out of the next edition, and back in. */
export function FateField({ fields, field, fate, label }: { fields: DraftFields; field: string; fate: string; label: string }) {
  return (
    <ChoiceField
      fields={fields}
      field={field}
      label={label}
      options={[
        ["", "stays"],
        [fate, fate],
      ]}
    />
  );
}

/** What cannot stand and has no field on this form. */
export function IssuesWithout({ issues, under }: { issues: readonly EditionIssue[]; under: string }) {
  const whole = issues.filter(({ path }) => path === under);
  if (whole.length === 0) return null;
  return (
    <div className="error-summary">
      {whole.map(({ message }) => (
        <p key={message} className="error">
          {message}
        </p>
      ))}
    </div>
  );
}

