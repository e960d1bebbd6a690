"use client";

import { useActionState } from "react";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import { setPasswordHere } from "./actions";

export function SetPasswordForm({ passwordKey }: { passwordKey: string }) {
  const [{ messages, problem }, send, isSending] = useActionState(setPasswordHere, UNTOUCHED);
  return (
    <form action={send} noValidate>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <input type="hidden" name="key" value={passwordKey} />
      <Field id="password" label="New password" hint="15 characters or more. A few words with spaces will do." error={messages.password}>
        <input {...describedBy("password", { hint: true, error: messages.password })} name="password" type="password" autoComplete="new-password" required />
      </Field>
      <Field id="again" label="The same again" error={messages.again}>
        <input {...describedBy("again", { error: messages.again })} name="again" type="password" autoComplete="new-password" required />
      </Field>
      <button type="submit" className="button" disabled={isSending}>
        Set the password
      </button>
    </form>
  );
}
