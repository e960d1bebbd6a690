"use client";

import { useActionState } from "react";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";

export function AuthoriseForm({ action, version, days }: { action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>; version: number; days: number }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send}>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <input type="hidden" name="version" value={version} />
      <Field id="return-note" label="To the customer (optional)" hint={`The mail gives the address, a return number and ${days} days.`} error={messages.note}>
        <textarea {...describedBy("return-note", { hint: true, error: messages.note })} name="note" rows={2} defaultValue={values.note} key={values.note} />
      </Field>
      <button type="submit" className="button plain tight" disabled={isSending}>
        Ask for the unit
      </button>
    </form>
  );
}
