"use client";

import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import type { FormState } from "@/app/_components/form-state";
import { DISPOSITION_NAMES, DISPOSITIONS, type DispositionKind } from "@/lib/domain/claims/dispositions";
import styles from "../inspection.module.css";
import { NotSent } from "../not-sent";
import { useBenchForm } from "../use-bench-form";

const DETAILS: Readonly<Record<DispositionKind, string>> = {
  returned_to_customer: "It goes back to whom it belongs",
  restocked: "Sound: on the shelf to be sold or used again",
  repaired: "Put right here",
  scrapped: "Nothing more can be found on it",
  held_as_evidence: "Kept as it is until the day below",
  sent_to_supplier: "For the supplier to look at",
};

interface Props {
  action: (before: FormState, form: FormData) => Promise<FormState>;
  returnId: string;
  /** The disposition that stood when the page was loaded. */
  seen: string;
  keepUntil: string;
}

export function DispositionForm({ action, returnId, seen, keepUntil }: Props) {
  const { state, isSending, waits, tied } = useBenchForm(action);
  const { values = {}, messages, problem } = state;
  const errors = [
    ...(problem ? [{ field: "main", message: problem }] : []),
    ...(messages.kind ? [{ field: "kind-0", message: messages.kind }] : []),
    ...(messages.keepUntil ? [{ field: "keepUntil", message: messages.keepUntil }] : []),
    ...(messages.reason ? [{ field: "reason", message: messages.reason }] : []),
  ];
  return (
    <form {...tied} noValidate className={styles.form}>
      <ErrorSummary errors={errors} />
      <input type="hidden" name="returnId" value={returnId} />
      <input type="hidden" name="seen" value={seen} />
      <fieldset className={styles.question} {...(messages.kind ? { "aria-describedby": "kind-error" } : {})}>
        <legend>The unit is to be</legend>
        {messages.kind ? (
          <span className="error" id="kind-error">
            {messages.kind}
          </span>
        ) : null}
        <ul className={`choices ${styles.choices}`}>
          {DISPOSITIONS.map((kind, index) => (
            <li key={kind}>
              <label>
                <input type="radio" id={`kind-${index}`} name="kind" value={kind} defaultChecked={values.kind === kind} />
                <span>
                  {DISPOSITION_NAMES[kind]}
                  <span className={`small soft ${styles.detail}`}>{DETAILS[kind]}</span>
                </span>
              </label>
            </li>
          ))}
        </ul>
      </fieldset>
      <div className={styles.onlyForEvidence}>
        <Field id="keepUntil" label="Kept until" error={messages.keepUntil}>
          <input type="date" {...describedBy("keepUntil", { error: messages.keepUntil })} name="keepUntil" defaultValue={values.keepUntil ?? keepUntil} />
        </Field>
      </div>
      <Field id="reason" label="Why (needed where something speaks against it)" error={messages.reason}>
        <textarea {...describedBy("reason", { error: messages.reason })} name="reason" rows={2} defaultValue={values.reason ?? ""} />
      </Field>
      <div className="acts">
        <NotSent waits={waits} className={styles.across} />
        <button type="submit" className={`button ${styles.big}`} aria-disabled={isSending}>
          Decide
        </button>
      </div>
    </form>
  );
}
