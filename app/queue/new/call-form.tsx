"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary, type FieldError } from "@/app/_components/error-summary";
import { Problem } from "@/app/_components/problem";
import { fieldId, QuestionField } from "@/app/_components/question-field";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { askedField } from "@/lib/domain/intake/call-fields";
import { unitField } from "@/lib/domain/intake/fields";
import type { CallSection } from "@/lib/operations/take-down-call";
import { KeyHint } from "../keys";
import css from "./call.module.css";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  sections: readonly CallSection[];
  values: Readonly<Record<string, string>>;
  isReady: boolean;
}

/** All groups of questions of a call as one form. Kept, it comes back with what is worth asking now. */
export function CallForm({ action, sections, values, isReady }: Props) {
  const [state, send, isSending] = useActionState(action, UNTOUCHED);
  const typed: Readonly<Record<string, string | undefined>> = { ...values, ...state.values };
  // As a string, so that the summary takes the focus when a form has come back and not with every key.
  const errorsNow = JSON.stringify(sections.flatMap(({ fields }) => fields.flatMap((field) => (state.messages[field.name] ? [{ field: fieldId(field, typed), message: state.messages[field.name] }] : []))));
  const errors = useMemo(() => JSON.parse(errorsNow) as FieldError[], [errorsNow]);
  return (
    <form action={send} className={css.call} noValidate>
      <Problem sentence={state.problem} />
      <ErrorSummary errors={errors} />
      <div className={css.groups}>
        {sections.map(({ screen, name, lead, fields: own, isAnswered }) => (
          <section key={screen} className={`sheet ${css.group}`} data-answered={isAnswered}>
            <h2>
              {name}
              {isAnswered ? <span className="small soft"> answered</span> : null}
            </h2>
            {lead ? <p className="small soft">{lead}</p> : null}
            <input type="hidden" name={askedField(screen)} value="yes" />
            {own.map((field) => (
              <QuestionField
                key={`${field.name}:${typed[field.name] ?? ""}`}
                field={field}
                value={typed[field.name] ?? ""}
                unit={typed[unitField(field.name)] ?? ""}
                error={state.messages[field.name]}
                typed={typed}
                isHeading={own.length === 1 && field.label === name}
              />
            ))}
          </section>
        ))}
      </div>
      <div className={css.foot}>
        <button type="submit" name="then" value="keep" className={`button${isReady ? " plain" : ""}`} aria-disabled={isSending} data-key="t">
          Keep it, and show what is still worth asking <KeyHint sign="T" />
        </button>
        <button type="submit" name="then" value="file" className={`button${isReady ? "" : " plain"}`} aria-disabled={isSending} data-key="f">
          File it <KeyHint sign="F" />
        </button>
      </div>
    </form>
  );
}
