"use client";

import Link from "next/link";
import { type ReactNode, useActionState, useEffect, useMemo, useRef } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { fieldId, QuestionField } from "@/app/_components/question-field";
import { keepTyped, restoreTyped } from "@/app/_components/typed-copy";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";
import type { PlayLimits } from "@/lib/domain/claims/play-readings";
import { SAME_UNIT } from "@/lib/domain/claims/serials";
import styles from "./inspection.module.css";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  fields: readonly IntakeField[];
  /** Of this turbo model; null where the unit is not known. */
  limits: (PlayLimits & { name: string }) | null;
  /** That the unit has another serial than the claim, in words; null where it has not. */
  otherSerial: string | null;
  /** Names this inspection in the copy kept on the device. */
  copyKey: string;
  cautions: ReactNode;
}

/** One question after another, each of which may be skipped; big targets for gloves. */
export function InspectionForm({ action, fields, limits, otherSerial, copyKey, cautions }: Props) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (form.current) restoreTyped(copyKey, form.current);
  }, [copyKey]);
  const errors = useMemo(
    () => [
      ...(problem ? [{ field: "main", message: problem }] : []),
      ...(messages[SAME_UNIT] ? [{ field: SAME_UNIT, message: messages[SAME_UNIT] }] : []),
      ...fields.flatMap((field) => (messages[field.name] ? [{ field: fieldId(field, values), message: messages[field.name] ?? "" }] : [])),
    ],
    [fields, messages, problem, values],
  );
  const numbers = fields.filter(({ kind }) => kind === "number");
  const looks = fields.filter(({ kind }) => kind === "choice");
  const closing = fields.filter(({ kind }) => kind === "text");
  const view = (field: IntakeField) => (
    <QuestionField
      key={field.name + (values[field.name] ?? "")}
      field={field}
      value={values[field.name] ?? ""}
      unit={values[unitField(field.name)] ?? ""}
      error={messages[field.name]}
      typed={values}
      isHeading={false}
      register={(name) => ({ name, onChange: async () => {}, onBlur: async () => {}, ref: () => {} })}
    />
  );
  return (
    <form ref={form} action={send} onInput={() => form.current && keepTyped(copyKey, form.current)} noValidate className={styles.form}>
      <ErrorSummary errors={errors} />
      {otherSerial ? (
        <section className="sheet">
          <h2>{otherSerial}</h2>
          <p>
            Was it read wrong? <Link href="/returns">Correct the serial</Link>. Else ask at the desk whose unit this is before you go on: what you find counts for this claim.
          </p>
          {messages[SAME_UNIT] ? (
            <p className="error" id={`${SAME_UNIT}-error`}>
              {messages[SAME_UNIT]}
            </p>
          ) : null}
          <label className={styles.tick}>
            <input type="checkbox" id={SAME_UNIT} name={SAME_UNIT} value="yes" defaultChecked={values[SAME_UNIT] === "yes"} key={values[SAME_UNIT]} {...(messages[SAME_UNIT] ? { "aria-describedby": `${SAME_UNIT}-error`, "aria-invalid": true as const } : {})} />
            <span>This is the unit of this claim all the same. How I know it stands in the note below.</span>
          </label>
        </section>
      ) : null}
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
