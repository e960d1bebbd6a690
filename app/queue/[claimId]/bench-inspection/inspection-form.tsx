"use client";

import { type ReactNode, useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { fieldId, IntakeFieldView } from "@/app/intake/intake-field";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";
import styles from "./inspection.module.css";

interface Limits {
  name: string;
  axialPlayMinMm: number;
  axialPlayMaxMm: number;
  radialPlayMaxMm: number;
}

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  fields: readonly IntakeField[];
  /** Of this turbo model; null where the unit is not known. */
  limits: Limits | null;
  cautions: ReactNode;
}

/** One question after another, each of which may be skipped; big targets for gloves. */
export function InspectionForm({ action, fields, limits, cautions }: Props) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const errors = useMemo(
    () => [
      ...(problem ? [{ field: "main", message: problem }] : []),
      ...fields.flatMap((field) => (messages[field.name] ? [{ field: fieldId(field), message: messages[field.name] ?? "" }] : [])),
    ],
    [fields, messages, problem],
  );
  const numbers = fields.filter(({ kind }) => kind === "number");
  const looks = fields.filter(({ kind }) => kind === "choice");
  const closing = fields.filter(({ kind }) => kind === "text");
  const view = (field: IntakeField) => (
    <IntakeFieldView
      key={field.name + (values[field.name] ?? "")}
      field={field}
      value={values[field.name] ?? ""}
      unit={values[unitField(field.name)] ?? ""}
      error={messages[field.name]}
      isHeading={false}
      register={(name) => ({ name, onChange: async () => {}, onBlur: async () => {}, ref: () => {} })}
    />
  );
  return (
    <form action={send} noValidate className={styles.form}>
      <ErrorSummary errors={errors} />
      <div className={styles.cautions}>{cautions}</div>
      <section className="sheet">
        <h2>Measure</h2>
        {limits ? (
          <dl className={`title-block ${styles.limits}`}>
            <div>
              <dt>Sound {limits.name}, fore and aft</dt>
              <dd>
                {limits.axialPlayMinMm} to {limits.axialPlayMaxMm} mm
              </dd>
            </div>
            <div>
              <dt>Sound {limits.name}, sideways through the oil outlet</dt>
              <dd>up to {limits.radialPlayMaxMm} mm</dd>
            </div>
          </dl>
        ) : (
          <p className="soft">The model is not known, so its own limits cannot be shown.</p>
        )}
        <div className={styles.columns}>{numbers.map(view)}</div>
      </section>
      <section className="sheet">
        <h2>Look</h2>
        <p className="soft">Skip what you did not look at.</p>
        <div className={styles.columns}>{looks.map(view)}</div>
      </section>
      <section className="sheet">
        <h2>Close the inspection</h2>
        {closing.map(view)}
        <button type="submit" className="button" disabled={isSending}>
          Keep the inspection
        </button>
      </section>
    </form>
  );
}
