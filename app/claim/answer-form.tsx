"use client";

import { useEffect, useMemo, useRef } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import type { FormState } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";
import { type DrawnField, fieldId, QuestionField } from "@/app/_components/question-field";
import { forgetTyped, keepTyped, restoreTyped } from "@/app/_components/typed-copy";
import { submitted, useSending } from "@/app/_components/use-sending";
import { useSay } from "@/app/_language/browser-words";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";

interface Props {
  field: IntakeField;
  action: (before: FormState, form: FormData) => Promise<FormState>;
  /** Names this question in the copy kept on the device. */
  copyKey: string;
  label: string;
  drawn?: DrawnField | undefined;
  /** A second button that gives no answer, and its words. */
  cannotTell?: string;
}

/** One question on the private page, with its answer. What is typed is kept on the device until it is sent. */
export function AnswerForm({ field, action, copyKey, label, cannotTell, drawn }: Props) {
  const say = useSay();
  const form = useRef<HTMLFormElement>(null);
  const { state, posted, postAction, isSending, send } = useSending(action, say("browser.lost.message"), () => {
    forgetTyped(copyKey);
    form.current?.reset();
  });
  useEffect(() => {
    if (form.current) restoreTyped(copyKey, form.current);
  }, [copyKey]);

  const message = state.messages[field.name];
  const errors = useMemo(() => (message ? [{ field: fieldId(field, state.values), message }] : []), [message, field, state.values]);
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
      {errors.length > 0 || state.problem ? <title>{`${say("browser.errorTitle", { title: field.label })} - Fit or Fault`}</title> : null}
      <Problem sentence={state.problem} />
      <ErrorSummary errors={errors} />
      <QuestionField field={field} value={posted.values?.[field.name] ?? ""} unit={posted.values?.[unitField(field.name)] ?? ""} error={message} typed={state.values ?? {}} isHeading={false} drawn={drawn} />
      <div className="acts">
        <button type="submit" className="button" aria-disabled={isSending}>
          {label}
        </button>
        {cannotTell ? (
          <button type="submit" name="cannotTell" value="yes" className="button plain">
            {cannotTell}
          </button>
        ) : null}
      </div>
    </form>
  );
}
