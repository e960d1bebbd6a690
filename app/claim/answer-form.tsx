"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { type FormState, UNTOUCHED } from "@/app/intake/form-state";
import { fieldId, IntakeFieldView } from "@/app/intake/intake-field";
import { Problem } from "@/app/intake/problem";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";

interface Props {
  field: IntakeField;
  action: (before: FormState, form: FormData) => Promise<FormState>;
  label: string;
  /** A second button that gives no answer, and its words. */
  cannotTell?: string;
}

/** One question on the private page, with its answer. */
export function AnswerForm({ field, action, label, cannotTell }: Props) {
  const [state, send, isSending] = useActionState(action, UNTOUCHED);
  const message = state.messages[field.name];
  const errors = useMemo(() => (message ? [{ field: fieldId(field), message }] : []), [message, field]);
  const value = state.values?.[field.name] ?? "";
  return (
    <form action={send} noValidate>
      {errors.length > 0 || state.problem ? <title>{`Error: ${field.label} - Fit or Fault`}</title> : null}
      <Problem sentence={state.problem} />
      <ErrorSummary errors={errors} />
      <IntakeFieldView
        key={value}
        field={field}
        value={value}
        unit={state.values?.[unitField(field.name)] ?? ""}
        error={message}
        isHeading={false}
      />
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
