"use client";

import { useActionState } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import styles from "../chargebacks.module.css";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  on: { number: number; version: number };
  days: number;
  asked: string;
  supplier: string;
}

export function SendForm({ action, on, days, asked, supplier }: Props) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const errors = [...(problem ? [{ field: "main", message: problem }] : []), ...(messages.days ? [{ field: "days", message: messages.days }] : []), ...(messages.note ? [{ field: "note", message: messages.note }] : [])];
  return (
    <form action={send} noValidate className={styles.form}>
      <ErrorSummary errors={errors} />
      <input type="hidden" name="number" value={on.number} />
      <input type="hidden" name="version" value={on.version} />
      <Field id="days" label="An answer is due within so many days" error={messages.days}>
        <input {...describedBy("days", { error: messages.days })} name="days" inputMode="numeric" defaultValue={values.days ?? String(days)} key={values.days} />
      </Field>
      <Field id="note" label="What is written to the supplier (optional)" hint="Nothing of a customer." error={messages.note}>
        <textarea {...describedBy("note", { hint: true, error: messages.note })} name="note" rows={3} defaultValue={values.note ?? ""} key={values.note} />
      </Field>
      <p className="small soft">From then on the amounts stand. Send the table and the summaries in your own mail to {supplier}; this keeps that it went out, and until when an answer is due.</p>
      <button type="submit" className="button" disabled={isSending}>
        It is sent: ask {asked}
      </button>
    </form>
  );
}
