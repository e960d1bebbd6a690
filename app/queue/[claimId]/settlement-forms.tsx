"use client";

import { useActionState } from "react";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import { BOOKING_NAMES, type BookingKind } from "@/lib/domain/claims/bookings";
import css from "./settlement.module.css";

type Action = (before: DeskFormState, form: FormData) => Promise<DeskFormState>;

function Problem({ sentence }: { sentence: string | undefined }) {
  return sentence ? (
    <p className="error" role="alert">
      {sentence}
    </p>
  ) : null;
}

interface BookProps {
  action: Action;
  version: number;
  bookingKey: string;
  /** What is not booked yet. */
  kinds: readonly BookingKind[];
  /** What is filled in: the next thing promised. */
  kind: BookingKind;
  amount: string;
  sellerPercent: number;
  currency: string;
}

export function BookForm({ action, version, bookingKey, kinds, kind, amount, sellerPercent, currency }: BookProps) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const text = (name: "amount" | "sellerPercent" | "supplierPercent" | "note", label: string, usual: string, hint?: string) => (
    <Field id={`settlement-${name}`} label={label} hint={hint} error={messages[name]}>
      <input {...describedBy(`settlement-${name}`, { hint: hint !== undefined, error: messages[name] })} name={name} {...(name === "note" ? {} : { inputMode: "decimal" as const })} autoComplete="off" defaultValue={values[name] ?? usual} key={values[name]} />
    </Field>
  );
  return (
    <form action={send} noValidate>
      <Problem sentence={problem} />
      <input type="hidden" name="version" value={version} />
      <input type="hidden" name="bookingKey" value={bookingKey} />
      <div className={css.pair}>
        <Field id="settlement-kind" label="Book" error={messages.kind}>
          <select {...describedBy("settlement-kind", { error: messages.kind })} name="kind" defaultValue={values.kind ?? kind} key={values.kind}>
            {kinds.map((each) => (
              <option key={each} value={each}>
                {BOOKING_NAMES[each]}
              </option>
            ))}
          </select>
        </Field>
        {text("amount", `Amount in ${currency}`, amount)}
        {text("sellerPercent", "We bear, per cent", String(sellerPercent))}
        {text("supplierPercent", "Supplier, per cent", "0")}
      </div>
      <p className="small soft">The customer bears what is left. A deposit moves whole.</p>
      {text("note", "Note (optional)", "")}
      <button type="submit" className="button plain tight" aria-disabled={isSending}>
        Book it
      </button>
    </form>
  );
}

export function SettleForm({ action, version, label }: { action: Action; version: number; label: string }) {
  const [{ problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send}>
      <Problem sentence={problem} />
      <input type="hidden" name="version" value={version} />
      <button type="submit" className="button plain tight" aria-disabled={isSending}>
        {label}
      </button>
    </form>
  );
}

export function DepositForm({ action, bookingKey, depositId, amount }: { action: Action; bookingKey: string; depositId: string; amount: string }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send}>
      <h3>{amount} is held for the old part</h3>
      <Problem sentence={problem} />
      <input type="hidden" name="bookingKey" value={bookingKey} />
      <input type="hidden" name="depositId" value={depositId} />
      <Field id="deposit-note" label="Note (optional)" hint="As the state the old part came in" error={messages.note}>
        <input {...describedBy("deposit-note", { hint: true, error: messages.note })} name="note" autoComplete="off" defaultValue={values.note} key={values.note} />
      </Field>
      <div className={css.line}>
        <button type="submit" name="end" value="core_released" className="button plain tight" aria-disabled={isSending}>
          Give it back
        </button>
        <button type="submit" name="end" value="core_kept" className="button plain tight" aria-disabled={isSending}>
          Keep it
        </button>
      </div>
    </form>
  );
}

export function ReverseForm({ action, bookingKey, settlementId, what }: { action: Action; bookingKey: string; settlementId: string; what: string }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const id = `reverse-${settlementId}`;
  return (
    <details className="no-print" open={messages.note !== undefined || problem !== undefined}>
      <summary className="small">
        Reverse<span className="visually-hidden"> {what}</span>
      </summary>
      <form action={send}>
        <Problem sentence={problem} />
        <input type="hidden" name="settlementId" value={settlementId} />
        <input type="hidden" name="bookingKey" value={bookingKey} />
        <Field id={id} label="Why" error={messages.note}>
          <input {...describedBy(id, { error: messages.note })} name="note" autoComplete="off" defaultValue={values.note} key={values.note} />
        </Field>
        <button type="submit" className="button plain tight" aria-disabled={isSending}>
          Book the reversal
        </button>
      </form>
    </details>
  );
}
