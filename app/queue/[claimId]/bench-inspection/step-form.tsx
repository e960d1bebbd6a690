"use client";

import { type ReactNode, useEffect, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import type { FormState } from "@/app/_components/form-state";
import { keepTyped, restoreTyped } from "@/app/_components/typed-copy";
import type { FieldDrawings } from "@/app/_drawings/asked-drawing";
import { SAME_UNIT } from "@/lib/domain/claims/serials";
import type { IntakeField } from "@/lib/domain/intake/fields";
import type { Gauge } from "@/lib/operations/load-inspection";
import { GaugeField } from "./gauge-field";
import styles from "./inspection.module.css";
import { NotSent } from "./not-sent";
import { useBenchForm } from "./use-bench-form";

type Typed = Readonly<Partial<Record<string, string>>>;

interface Props {
  action: (before: FormState, form: FormData) => Promise<FormState>;
  fields: readonly IntakeField[];
  gauges: readonly Gauge[];
  drawings: Readonly<Partial<Record<string, FieldDrawings>>>;
  /** What the server has of this step. */
  kept: Typed;
  /** Asks how one knows that a unit with another serial is the one of the claim. */
  asksSameUnit: boolean;
  /** Names this step in the copy kept on the device. */
  copyKey: string;
}

/** One step of the bench: big answers, keys where a number is due, and one button that keeps it and goes on. */
export function StepForm({ action, fields, gauges, drawings, kept, asksSameUnit, copyKey }: Props) {
  const { form, state, isSending, waits, tied } = useBenchForm(action);
  const { values = kept, messages, problem } = state;
  useEffect(() => {
    if (form.current) restoreTyped(copyKey, form.current);
  }, [copyKey, form]);
  const errors = useMemo(
    () => [...(problem ? [{ field: "main", message: problem }] : []), ...fields.flatMap((field) => (messages[field.name] ? [{ field: field.kind === "choice" ? `${field.name}-0` : field.name, message: messages[field.name] ?? "" }] : []))],
    [fields, messages, problem],
  );
  return (
    <form {...tied} onInput={() => form.current && keepTyped(copyKey, form.current)} noValidate className={styles.form}>
      <ErrorSummary errors={errors} />
      {asksSameUnit ? (
        <label className={styles.tick}>
          <input type="checkbox" name={SAME_UNIT} value="yes" defaultChecked={values[SAME_UNIT] === "yes"} />
          <span>It is the unit of this claim all the same. How I know it stands in the note.</span>
        </label>
      ) : null}
      {fields.map((field) => {
        const error = messages[field.name];
        if (field.kind === "choice") return <Choice key={field.name} field={field} value={values[field.name] ?? ""} drawings={drawings[field.name]} error={error} />;
        if (field.kind !== "number") return <Words key={field.name} field={field} value={values[field.name] ?? ""} error={error} isOpen={asksSameUnit} />;
        return <GaugeField key={field.name} field={field} gauge={gauges.find(({ code }) => code === field.name) ?? null} drawing={drawings[field.name]?.asked} typed={values} error={error} copyKey={copyKey} />;
      })}
      <div className={`${styles.foot} no-print`}>
        <NotSent waits={waits} className={styles.across} />
        <button type="submit" className="button" aria-disabled={isSending}>
          {isSending ? "On its way" : "Keep and go on"}
        </button>
        <button type="submit" className="button plain" name="go" value="skip" aria-disabled={isSending}>
          Skip for now
        </button>
      </div>
    </form>
  );
}

function Choice({ field, value, drawings, error }: { field: IntakeField & { kind: "choice" }; value: string; drawings: FieldDrawings | undefined; error: string | undefined }): ReactNode {
  return (
    <fieldset className={styles.question} {...(error ? { "aria-describedby": `${field.name}-error` } : {})}>
      <legend>{field.label}</legend>
      {field.how ? <p className="small soft">{field.how}</p> : null}
      {field.hint && !field.how ? <p className="small soft">{field.hint}</p> : null}
      {drawings?.asked}
      {error ? (
        <span className="error" id={`${field.name}-error`}>
          {error}
        </span>
      ) : null}
      <ul className={`choices ${styles.choices}`}>
        {field.options.map((option, index) => (
          <li key={option.value}>
            <label>
              <input type="radio" id={`${field.name}-${index}`} name={field.name} value={option.value} defaultChecked={value === option.value} />
              <span>
                {drawings?.options[option.value]}
                {option.label}
                {option.detail ? <span className={`small soft ${styles.detail}`}>{option.detail}</span> : null}
              </span>
            </label>
          </li>
        ))}
      </ul>
    </fieldset>
  );
}

/** The only typing there is: a serial that is another one, and a note that is folded away. */
function Words({ field, value, error, isOpen }: { field: Exclude<IntakeField, { kind: "choice" | "number" }>; value: string; error: string | undefined; isOpen: boolean }): ReactNode {
  const isLong = field.kind === "text" && field.lines !== undefined;
  const tied = { id: field.name, name: field.name, defaultValue: value, ...(error ? { "aria-describedby": `${field.name}-error`, "aria-invalid": true as const } : {}) };
  const control = (
    <div className="field">
      <label htmlFor={field.name}>{field.label}</label>
      {error ? (
        <span className="error" id={`${field.name}-error`}>
          {error}
        </span>
      ) : null}
      {isLong ? <textarea {...tied} rows={3} /> : <input {...tied} autoComplete="off" autoCapitalize="characters" spellCheck={false} />}
    </div>
  );
  if (!isLong) return <div className={field.shownWhen ? styles.onlyThen : ""}>{control}</div>;
  return (
    <details className={styles.note} open={isOpen || error !== undefined || value !== ""}>
      <summary>Add a note</summary>
      {control}
    </details>
  );
}
