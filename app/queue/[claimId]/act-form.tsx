"use client";

import { type ReactNode, useActionState, useId } from "react";
import { QuestionField } from "@/app/_components/question-field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  label: ReactNode;
  fields?: readonly IntakeField[];
  /** What the fields hold at first, by name. */
  initial?: Readonly<Record<string, string>>;
  /** Fields beside those, and hidden ones. */
  children?: ReactNode;
  className?: string;
  isPlain?: boolean;
  /** Key that leads to the button. */
  sign?: string;
  /** Where several forms say the same word: of what this one is. */
  of?: string;
}

/** One act on a claim: its fields and its button. Refused, it comes back as it was typed, with messages beside the fields. */
export function ActForm({ action, label, fields = [], initial = {}, children, className, isPlain = false, sign, of }: Props) {
  const [state, send, isSending] = useActionState(action, UNTOUCHED);
  const problemId = useId();
  const values: Readonly<Record<string, string | undefined>> = { ...initial, ...state.values };
  return (
    <form action={send} className={className} noValidate>
      {state.problem ? (
        <p className="error" role="alert" id={problemId}>
          {state.problem}
        </p>
      ) : null}
      {fields.map((field) => (
        <QuestionField
          key={`${field.name}:${values[field.name] ?? ""}`}
          field={field}
          value={values[field.name] ?? ""}
          unit={values[unitField(field.name)] ?? ""}
          error={state.messages[field.name]}
          typed={values}
          isHeading={false}
        />
      ))}
      {children}
      <button type="submit" className={`button tight${isPlain ? " plain" : ""}`} aria-disabled={isSending} {...(sign ? { "data-key": sign } : {})} {...(state.problem ? { "aria-describedby": problemId } : {})}>
        {label}
        {of ? <span className="visually-hidden"> {of}</span> : null}
      </button>
    </form>
  );
}
