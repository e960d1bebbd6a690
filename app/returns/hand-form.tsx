"use client";

import { type ReactNode, useActionState, useId } from "react";
import { QuestionField } from "@/app/_components/question-field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import type { IntakeField } from "@/lib/domain/intake/fields";
import css from "./returns.module.css";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  /** What is read off the unit before it is handed over. */
  first: readonly IntakeField[];
  /** One button a place; the first is the usual one, and large. */
  places: readonly { code: string; label: string }[];
  /** What may be said beside it, folded away. */
  more: readonly IntakeField[];
  /** Hidden fields. */
  children: ReactNode;
}

/** One handover: a large button for where it usually goes, smaller ones for elsewhere, the rest under a fold. */
export function HandForm({ action, first, places, more, children }: Props) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const problemId = useId();
  const question = (field: IntakeField) => <QuestionField key={`${field.name}:${values[field.name] ?? ""}`} field={field} value={values[field.name] ?? ""} unit="" error={messages[field.name]} typed={values} isHeading={false} />;
  return (
    <form action={send} className={css.hand} noValidate>
      {problem ? (
        <p className="error" role="alert" id={problemId}>
          {problem}
        </p>
      ) : null}
      {children}
      {first.map(question)}
      <div className={css.places}>
        {places.map(({ code, label }, index) => (
          <button key={code} type="submit" name="to" value={code} className={index === 0 ? `button ${css.big}` : "button plain"} aria-disabled={isSending} {...(problem ? { "aria-describedby": problemId } : {})}>
            {label}
          </button>
        ))}
      </div>
      <details open={more.some(({ name }) => messages[name] !== undefined)}>
        <summary>Condition, seal{more.some(({ name }) => name === "found") ? ", where it was found" : ""}</summary>
        {more.map(question)}
      </details>
    </form>
  );
}
