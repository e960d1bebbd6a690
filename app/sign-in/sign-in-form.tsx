"use client";

import { useActionState } from "react";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import { signInHere } from "./actions";

export function SignInForm({ next }: { next: string | null }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(signInHere, UNTOUCHED);
  return (
    <form action={send} noValidate>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      {next ? <input type="hidden" name="next" value={next} /> : null}
      <Field id="email" label="E-mail address" error={messages.email}>
        <input {...describedBy("email", { error: messages.email })} name="email" type="email" autoComplete="username" required defaultValue={values.email} key={values.email} />
      </Field>
      <Field id="password" label="Password" error={messages.password}>
        <input {...describedBy("password", { error: messages.password })} name="password" type="password" autoComplete="current-password" required />
      </Field>
      <p className="acts">
        <button type="submit" className="button" disabled={isSending}>
          Sign in
        </button>
      </p>
    </form>
  );
}
