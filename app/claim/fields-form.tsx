"use client";

import { useEffect, useMemo, useRef } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import type { FormState } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";
import { fieldId, QuestionField } from "@/app/_components/question-field";
import { forgetTyped, keepTyped, restoreTyped } from "@/app/_components/typed-copy";
import { submitted, useSending } from "@/app/_components/use-sending";
import { useSay } from "@/app/_language/browser-words";
import type { IntakeField } from "@/lib/domain/intake/fields";

interface Props {
  fields: readonly IntakeField[];
  /** What is known already, by name of the field. */
  known: Readonly<Record<string, string>>;
  action: (before: FormState, form: FormData) => Promise<FormState>;
  /** Names the form in the copy kept on the device. */
  copyKey: string;
  label: string;
}

/** Several short fields of the private page with one button. What is typed is kept on the device until it is sent. */
export function FieldsForm({ fields, known, action, copyKey, label }: Props) {
  const say = useSay();
  const form = useRef<HTMLFormElement>(null);
  const { state, posted, postAction, isSending, send } = useSending(action, say("browser.lost.message"), () => forgetTyped(copyKey));
  useEffect(() => {
    if (form.current) restoreTyped(copyKey, form.current);
  }, [copyKey]);

  const errors = useMemo(
    () =>
      fields.flatMap((field) => {
        const message = state.messages[field.name];
        return message ? [{ field: fieldId(field, state.values), message }] : [];
      }),
    [fields, state],
  );
  return (
    <form
      ref={form}
      action={postAction}
      onSubmit={(event) => {
        event.preventDefault();
        send(submitted(event));
      }}
      onInput={(event) => keepTyped(copyKey, event.currentTarget)}
      noValidate
    >
      {errors.length > 0 || state.problem ? <title>{`${say("browser.errorTitle", { title: label })} - Fit or Fault`}</title> : null}
      <Problem sentence={state.problem} />
      <ErrorSummary errors={errors} />
      {fields.map((field) => (
        <QuestionField key={field.name} field={field} value={posted.values?.[field.name] ?? known[field.name] ?? ""} unit="" error={state.messages[field.name]} typed={state.values ?? {}} isHeading={false} />
      ))}
      <div className="acts">
        <button type="submit" className="button" aria-disabled={isSending}>
          {label}
        </button>
      </div>
    </form>
  );
}
