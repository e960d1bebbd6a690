"use client";

import { useActionState } from "react";
import { describedBy, Field } from "@/app/_components/field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";

/** Whether a unit under another serial is the one of the claim, and how one knows: a button for each answer. */
export function SerialForm({ action, returnId }: { action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>; returnId: string }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send} noValidate>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <input type="hidden" name="returnId" value={returnId} />
      <Field id="serial-note" label="How you know whose it is" error={messages.note}>
        <textarea {...describedBy("serial-note", { error: messages.note })} name="note" rows={2} defaultValue={values.note} key={values.note} />
      </Field>
      <div className="acts">
        <button type="submit" name="answer" value="same" className="button plain tight" aria-disabled={isSending}>
          It is the unit of this claim
        </button>
        <button type="submit" name="answer" value="other" className="button plain tight" aria-disabled={isSending}>
          It is another unit
        </button>
      </div>
    </form>
  );
}
