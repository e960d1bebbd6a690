"use client";

import Link from "next/link";
import { type ReactNode, useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { type FormState, UNTOUCHED } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";
import { QuestionField } from "@/app/_components/question-field";
import { useSay } from "@/app/_language/browser-words";
import type { IntakeField } from "@/lib/domain/intake/fields";

interface Props {
  title: string;
  fields: readonly IntakeField[];
  action: (before: FormState, form: FormData) => Promise<FormState>;
  label: string;
  back: string;
  /** What is said once the mail is on its way. */
  sent: string;
  children: ReactNode;
}

/** Asks for an address and has a link mailed there. */
export function LinkForm({ title, fields, action, label, back, sent, children }: Props) {
  const say = useSay();
  const [state, send, isSending] = useActionState(action, UNTOUCHED);
  const errors = useMemo(() => fields.flatMap(({ name }) => (state.messages[name] ? [{ field: name, message: state.messages[name] }] : [])), [state, fields]);
  return (
    <>
      <title>{`${errors.length > 0 || state.problem ? say("browser.errorTitle", { title }) : title} - Fit or Fault`}</title>
      <Problem sentence={state.problem} />
      <ErrorSummary errors={errors} />
      <h1>{title}</h1>
      {children}
      {state.sent ? (
        <>
          <p className="note" role="status">
            <strong>{sent}</strong>
          </p>
          <p>
            <Link className="button plain" href={back}>
              {say("browser.back")}
            </Link>
          </p>
        </>
      ) : (
        <form action={send} noValidate>
          {fields.map((field) => (
            <QuestionField
              key={field.name + (state.values?.[field.name] ?? "")}
              field={field}
              value={state.values?.[field.name] ?? ""}
              unit=""
              error={state.messages[field.name]}
              isHeading={false}
            />
          ))}
          <div className="acts">
            <button type="submit" className="button" aria-disabled={isSending}>
              {label}
            </button>
            <Link className="button plain" href={back}>
              {say("browser.back")}
            </Link>
          </div>
        </form>
      )}
    </>
  );
}
