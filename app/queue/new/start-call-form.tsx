"use client";

import { useActionState } from "react";
import { Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { LANGUAGE_NAMES, LANGUAGES } from "@/lib/domain/claims/languages";
import { KeyHint } from "../keys";
import { beginCall } from "./actions";
import css from "./call.module.css";

/** Begins a call: with what the caller has at hand, or with nothing. */
export function StartCallForm({ filingKey }: { filingKey: string }) {
  const [{ values, problem }, send, isSending] = useActionState(beginCall, UNTOUCHED);
  return (
    <form action={send} className={`sheet ${css.start}`} noValidate>
      <Problem sentence={problem} />
      <input type="hidden" name="filingKey" value={values.filingKey ?? filingKey} />
      <Field id="number" label="Order number or serial (optional)" hint="It fills in the purchase, and of an order the customer's name and address. Leave it empty when the caller has neither.">
        <input id="number" name="number" autoComplete="off" maxLength={60} defaultValue={values.number} key={values.number} aria-describedby="number-hint" data-key="o" />
      </Field>
      <Field id="language" label="The customer is written to in">
        <select id="language" name="language" defaultValue={values.language ?? "en"} key={values.language}>
          {LANGUAGES.map((language) => (
            <option key={language} value={language}>
              {LANGUAGE_NAMES[language]}
            </option>
          ))}
        </select>
      </Field>
      <button type="submit" className="button" aria-disabled={isSending} data-key="t">
        Begin <KeyHint sign="T" />
      </button>
    </form>
  );
}
