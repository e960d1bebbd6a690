"use client";

import { useActionState } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import styles from "./inspection.module.css";

export function FinishForm({ action }: { action: (before: DeskFormState, form: FormData) => Promise<DeskFormState> }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send} className={styles.form}>
      <ErrorSummary errors={[...(problem ? [{ field: "main", message: problem }] : []), ...(messages.note ? [{ field: "note", message: messages.note }] : [])]} />
      <Field id="note" label="Note on the whole (optional)" error={messages.note}>
        <textarea {...describedBy("note", { error: messages.note })} name="note" rows={3} defaultValue={values.note ?? ""} key={values.note} />
      </Field>
      <div className="acts">
        <button type="submit" className={`button ${styles.big}`} disabled={isSending}>
          Finish the inspection
        </button>
      </div>
    </form>
  );
}
