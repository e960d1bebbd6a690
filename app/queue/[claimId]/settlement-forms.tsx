"use client";

import { useActionState } from "react";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import { REMEDIES, REMEDY_NAMES, type Remedy } from "@/lib/domain/claims/remedies";

type Action = (before: DeskFormState, form: FormData) => Promise<DeskFormState>;

export function BookForm({ action, version, remedy, currency, settles }: { action: Action; version: number; remedy: Remedy; currency: string; settles: boolean }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send}>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <input type="hidden" name="version" value={version} />
      <Field id="settlement-remedy" label="Book" error={messages.remedy}>
        <select {...describedBy("settlement-remedy", { error: messages.remedy })} name="remedy" defaultValue={values.remedy ?? remedy} key={values.remedy}>
          {REMEDIES.map((each) => (
            <option key={each} value={each}>
              {REMEDY_NAMES[each]}
            </option>
          ))}
        </select>
      </Field>
      <Field id="settlement-amount" label={`Amount in ${currency}`} hint={`What it costs the seller.${settles ? " Leave it empty where no money moves; a refund or goodwill needs one." : ""}`} error={messages.amount}>
        <input {...describedBy("settlement-amount", { hint: true, error: messages.amount })} name="amount" inputMode="decimal" autoComplete="off" defaultValue={values.amount} key={values.amount} />
      </Field>
      <Field id="settlement-note" label="Note (optional)" error={messages.note}>
        <input {...describedBy("settlement-note", { error: messages.note })} name="note" autoComplete="off" defaultValue={values.note} key={values.note} />
      </Field>
      {settles ? (
        <p>
          <label>
            <input type="checkbox" name="settles" value="yes" defaultChecked /> That is all: the claim is settled
          </label>
        </p>
      ) : null}
      <button type="submit" className="button plain tight" disabled={isSending}>
        {settles ? "Book and settle" : "Book"}
      </button>
    </form>
  );
}

export function ReverseForm({ action, settlementId, what }: { action: Action; settlementId: string; what: string }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const id = `reverse-${settlementId}`;
  return (
    <details open={messages.note !== undefined || problem !== undefined}>
      <summary className="small">
        Reverse<span className="visually-hidden"> {what}</span>
      </summary>
      <form action={send}>
        {problem ? (
          <p className="error" role="alert">
            {problem}
          </p>
        ) : null}
        <input type="hidden" name="settlementId" value={settlementId} />
        <Field id={id} label="Why" error={messages.note}>
          <input {...describedBy(id, { error: messages.note })} name="note" autoComplete="off" defaultValue={values.note} key={values.note} />
        </Field>
        <button type="submit" className="button plain tight" disabled={isSending}>
          Book the reversal
        </button>
      </form>
    </details>
  );
}
