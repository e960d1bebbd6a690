"use client";

import { useActionState } from "react";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { decideHere } from "./actions";
import css from "./knowledge.module.css";

/** Promote or discard, with the reason; where the basis is not in force any more, that is ticked knowingly. */
export function DecideForm({ number, basis, inForce }: { number: number; basis: number | null; inForce: number }) {
  const [{ values, messages, problem }, send, isSending] = useActionState<DeskFormState, FormData>(decideHere.bind(null, number), UNTOUCHED);
  return (
    <form action={send} noValidate className={`${css.narrow} no-print`}>
      <Problem sentence={problem} />
      <Field id="reason" label="Your reason" hint="It stands in the edition’s story" error={messages.reason}>
        <textarea {...describedBy("reason", { hint: true, error: messages.reason })} name="reason" rows={2} defaultValue={values.reason} key={values.reason} />
      </Field>
      {basis === inForce ? null : (
        <p>
          <label>
            <input type="checkbox" name="inSpiteOf" value={inForce} /> {basis === null ? "It came with the program" : `It was made from edition ${basis}`}, and edition {inForce} is in force: what that one changed is not in this one. Promote it all the same
          </label>
        </p>
      )}
      <div className={css.acts}>
        <button type="submit" name="act" value="promote" className="button tight" aria-disabled={isSending}>
          Put edition {number} in force
        </button>
        <button type="submit" name="act" value="discard" className="button tight plain" aria-disabled={isSending}>
          Discard it
        </button>
      </div>
    </form>
  );
}
