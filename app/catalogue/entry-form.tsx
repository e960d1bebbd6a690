"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import styles from "./catalogue.module.css";

export interface EntryField {
  name: string;
  label: string;
  hint?: string;
  /** Of the input; `lines` for text of several lines. */
  type?: "text" | "email" | "date" | "lines";
  /** What to choose from; the empty value stands for none. */
  options?: readonly (readonly [value: string, label: string])[];
}

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  fields: readonly EntryField[];
  /** What stands in the fields. */
  values: Readonly<Record<string, string>>;
  seen: string;
  label: string;
  /** Boxes to tick below the fields; what stands in them is their values, parted by spaces. */
  boxes?: { name: string; legend: string; options: readonly (readonly [value: string, label: string])[] };
}

/** The form of one entry of the catalogue, each field as it is typed. */
export function EntryForm({ action, fields, values, seen, label, boxes }: Props) {
  const [state, send, isSending] = useActionState(action, UNTOUCHED);
  const typed: Readonly<Partial<Record<string, string>>> = { ...values, seen, ...state.values };
  const errors = useMemo(() => Object.entries(state.messages).map(([field, message]) => ({ field, message: message ?? "" })), [state.messages]);
  return (
    <form action={send} noValidate>
      <Problem sentence={state.problem} />
      <ErrorSummary errors={errors} />
      <input type="hidden" name="seen" value={typed.seen} />
      <div className={styles.fields}>
        {fields.map(({ name, label: words, hint, type = "text", options }) => {
          const error = state.messages[name];
          const common = { ...describedBy(name, { hint: hint !== undefined, error }), name, defaultValue: typed[name], key: typed[name] };
          return (
            <Field key={name} id={name} label={words} hint={hint} error={error}>
              {options ? (
                <select {...common} key={common.key}>
                  {options.map(([value, option]) => (
                    <option key={value} value={value}>
                      {option}
                    </option>
                  ))}
                </select>
              ) : type === "lines" ? (
                <textarea {...common} key={common.key} rows={3} />
              ) : (
                <input {...common} key={common.key} type={type} autoComplete="off" />
              )}
            </Field>
          );
        })}
      </div>
      {boxes ? <Boxes {...boxes} ticked={typed[boxes.name] ?? ""} key={typed[boxes.name]} /> : null}
      <button type="submit" className="button" aria-disabled={isSending}>
        {label}
      </button>
    </form>
  );
}

function Boxes({ name, legend, options, ticked }: NonNullable<Props["boxes"]> & { ticked: string }) {
  const values = new Set(ticked.split(" "));
  return (
    <fieldset>
      <legend>{legend}</legend>
      <div className={styles.boxes}>
        {options.map(([value, label]) => (
          <label key={value}>
            <input type="checkbox" name={name} value={value} defaultChecked={values.has(value)} /> {label}
          </label>
        ))}
      </div>
    </fieldset>
  );
}
