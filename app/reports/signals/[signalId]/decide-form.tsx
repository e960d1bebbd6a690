"use client";

import { useActionState } from "react";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { SIGNAL_ACT_NAMES, SIGNAL_ACTS } from "@/lib/domain/reporting/signals-acts";
import { decideHere } from "../actions";
import styles from "../signals.module.css";

/** Marks what was done about a signal. */
export function DecideForm({ signalId, version, revisions }: { signalId: string; version: number; revisions: readonly { id: string; revision: string }[] }) {
  const [{ values, messages, problem }, send, isSending] = useActionState<DeskFormState, FormData>(decideHere.bind(null, signalId), UNTOUCHED);
  // A select that comes back refused keeps its choice only if it is made anew.
  const round = JSON.stringify(values);
  return (
    <form action={send} noValidate className={`${styles.narrow} no-print`} key={round}>
      <Problem sentence={problem} />
      <input type="hidden" name="version" value={version} />
      <Field id="act" label="What was done" error={messages.act}>
        <select {...describedBy("act", { error: messages.act })} name="act" defaultValue={values.act ?? ""}>
          <option value="">choose</option>
          {SIGNAL_ACTS.map((act) => (
            <option key={act} value={act}>
              {SIGNAL_ACT_NAMES[act]}
            </option>
          ))}
        </select>
      </Field>
      <Field id="note" label="Note" hint="It stands in the signal’s history" error={messages.note}>
        <textarea {...describedBy("note", { hint: true, error: messages.note })} name="note" rows={3} defaultValue={values.note} />
      </Field>
      <Field id="holdsFrom" label="Holds for what ships from" hint="A month, as 2026-01. Needed for a change, so that before and after can be compared" error={messages.holdsFrom}>
        <input {...describedBy("holdsFrom", { hint: true, error: messages.holdsFrom })} name="holdsFrom" type="month" placeholder="2026-01" defaultValue={values.holdsFrom} />
      </Field>
      {revisions.length > 0 ? (
        <Field id="revision" label="If a revision was shipped, which" error={messages.revision}>
          <select {...describedBy("revision", { error: messages.revision })} name="revision" defaultValue={values.revision ?? ""}>
            <option value="">none, or not yet in the catalogue</option>
            {revisions.map(({ id, revision }) => (
              <option key={id} value={id}>
                rev {revision}
              </option>
            ))}
          </select>
        </Field>
      ) : null}
      <button type="submit" className="button tight" aria-disabled={isSending}>
        Mark it
      </button>
    </form>
  );
}
