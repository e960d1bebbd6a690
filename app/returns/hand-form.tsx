"use client";

import { type ReactNode, useId } from "react";
import type { FormState } from "@/app/_components/form-state";
import { QuestionField } from "@/app/_components/question-field";
import { NotSent } from "@/app/queue/[claimId]/bench-inspection/not-sent";
import { useBenchForm } from "@/app/queue/[claimId]/bench-inspection/use-bench-form";
import type { IntakeField } from "@/lib/domain/intake/fields";
import css from "./returns.module.css";

interface Props {
  action: (before: FormState, form: FormData) => Promise<FormState>;
  /** What is read off the unit or the parcel first. */
  first?: readonly IntakeField[];
  /** What the fields hold at first, by name. */
  initial?: Readonly<Record<string, string>>;
  /** One button a place; the first is the usual one, and large unless the whole form is an aside. */
  places: readonly { code: string; label: string }[];
  isAside?: boolean;
  /** What may be said beside it, folded away. */
  more?: readonly IntakeField[];
  /** Hidden fields. */
  children?: ReactNode;
}

/**
 * One act at the door: a large button for where it usually goes, smaller ones for elsewhere, the rest under a fold. Without
 * a signal what is written stays and goes later.
 */
export function HandForm({ action, first = [], initial = {}, places, isAside = false, more = [], children }: Props) {
  const { state, isSending, waits, tied } = useBenchForm(action);
  const { values = initial, messages, problem } = state;
  const problemId = useId();
  const question = (field: IntakeField) => <QuestionField key={`${field.name}:${values[field.name] ?? ""}`} field={field} value={values[field.name] ?? ""} unit="" error={messages[field.name]} typed={values} isHeading={false} />;
  return (
    <form {...tied} className={css.hand} noValidate>
      {problem ? (
        <p className="error" role="alert" id={problemId}>
          {problem}
        </p>
      ) : null}
      {children}
      {first.map(question)}
      <NotSent waits={waits} />
      <div className={css.places}>
        {places.map(({ code, label }, index) => (
          <button key={code} type="submit" name="to" value={code} className={index > 0 || isAside ? "button plain" : `button ${css.big}`} aria-disabled={isSending} {...(problem ? { "aria-describedby": problemId } : {})}>
            {label}
          </button>
        ))}
      </div>
      {more.length > 0 ? (
        <details open={more.some(({ name }) => messages[name] !== undefined)}>
          <summary>Condition, seal{more.some(({ name }) => name === "found") ? ", where it was found" : ""}</summary>
          {more.map(question)}
        </details>
      ) : null}
    </form>
  );
}
