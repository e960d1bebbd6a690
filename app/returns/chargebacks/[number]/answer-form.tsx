"use client";

import { useActionState } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import styles from "../chargebacks.module.css";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  on: { number: number; version: number };
  lines: readonly { id: string; name: string; accepted: string }[];
  hasOpen: boolean;
  currency: string;
}

/** The supplier's answer line by line; what has no answer can be answered at once. */
export function AnswerForm({ action, on, lines, hasOpen, currency }: Props) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const errors = [...(problem ? [{ field: "main", message: problem }] : []), ...lines.flatMap(({ id }) => (messages[`amount-${id}`] ? [{ field: `amount-${id}`, message: messages[`amount-${id}`] ?? "" }] : []))];
  return (
    <form action={send} noValidate className={styles.form}>
      <ErrorSummary errors={errors} />
      <input type="hidden" name="number" value={on.number} />
      <input type="hidden" name="version" value={on.version} />
      {lines.map(({ id, name, accepted }) => {
        const field = `amount-${id}`;
        return (
          <Field key={id} id={field} label={`${name}: accepted, ${currency}`} error={messages[field]}>
            <input {...describedBy(field, { error: messages[field] })} name={field} inputMode="decimal" autoComplete="off" defaultValue={values[field] ?? accepted} key={values[field]} />
          </Field>
        );
      })}
      <Field id="note" label="What they wrote (optional)">
        <textarea {...describedBy("note", {})} name="note" rows={2} defaultValue={values.note ?? ""} key={values.note} />
      </Field>
      <div className="acts">
        <button type="submit" className="button" disabled={isSending}>
          Book these answers
        </button>
        {hasOpen ? (
          <>
            <button type="submit" className="button plain" name="rest" value="whole" disabled={isSending}>
              The rest is accepted in whole
            </button>
            <button type="submit" className="button plain" name="rest" value="nothing" disabled={isSending}>
              The rest is refused
            </button>
          </>
        ) : null}
      </div>
    </form>
  );
}
