"use client";

import { useActionState } from "react";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { type FileFormState, proposeFileHere } from "./actions";
import css from "./knowledge.module.css";

const UNTOUCHED: FileFormState = { why: "", issues: [] };

/** An edition changed elsewhere, as a file of JSON. Refused, every field that cannot stand is named. */
export function UploadForm({ basis }: { basis: number }) {
  const [{ why, issues, problem }, send, isSending] = useActionState(proposeFileHere.bind(null, basis), UNTOUCHED);
  return (
    <form action={send} className={css.narrow}>
      <Problem sentence={problem} />
      {issues.length > 0 ? (
        <ul>
          {issues.map(({ path, message }) => (
            <li key={path + message}>
              <code>{path || "the whole"}</code>: {message}
            </li>
          ))}
        </ul>
      ) : null}
      <Field id="file" label="The file" hint="JSON as it can be taken from an edition here, up to 1 MB; its number is given when it is proposed">
        <input {...describedBy("file", { hint: true })} type="file" name="file" accept="application/json,.json" />
      </Field>
      <Field id="file-why" label="What it is for">
        <textarea id="file-why" name="why" rows={2} maxLength={2000} defaultValue={why} key={why} />
      </Field>
      <button type="submit" className="button tight" aria-disabled={isSending}>
        Propose it
      </button>
    </form>
  );
}
