"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";

interface Choice {
  value: string;
  words: string;
}

/** Primary cause and what it lies with, nothing proposed. */
export function OpinionForm({ action, causes, attributions }: { action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>; causes: readonly Choice[]; attributions: readonly Choice[] }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const errors = useMemo(() => Object.entries(messages).map(([field, message]) => ({ field, message: message ?? "" })), [messages]);
  const choice = (name: string, label: string, hint: string, options: readonly Choice[]) => (
    <Field id={name} label={label} hint={hint} error={messages[name]}>
      <select {...describedBy(name, { hint: true, error: messages[name] })} name={name} defaultValue={values[name] ?? ""}>
        <option value="">choose</option>
        {options.map(({ value, words }) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </Field>
  );
  return (
    <form action={send} key={JSON.stringify(values)} noValidate>
      {errors.length > 0 ? <title>Error: second opinion - Fit or Fault</title> : null}
      <Problem sentence={problem} />
      <ErrorSummary errors={errors} />
      {choice("primaryCause", "Primary cause", "Along the oil path; the order tells nothing.", causes)}
      {choice("attribution", "It lies with", "Who or what is responsible, as far as this tells.", attributions)}
      <p className="small soft">It is kept as you give it, once. Afterwards you and whoever decided the claim see both side by side.</p>
      <button type="submit" className="button" aria-disabled={isSending}>
        Give this opinion
      </button>
    </form>
  );
}
