"use client";

import { useState } from "react";
import { describedBy, Field } from "@/app/_components/field";
import { IMPORT_KIND_NAMES, IMPORT_KINDS } from "@/lib/domain/imports/kinds";
import { MOST_IMPORT_BYTES } from "@/lib/domain/imports/reading";
import { UPLOAD_PROBLEMS } from "./upload-problems";

/**
 * A plain form to a route of its own; with script a file that is too big is told before it is sent.
 *
 * @param problem of the file sent before
 */
export function UploadForm({ problem }: { problem: string | undefined }) {
  const [message, setMessage] = useState(problem);
  return (
    <form
      action="/api/figures"
      method="post"
      encType="multipart/form-data"
      onSubmit={(event) => {
        const file = new FormData(event.currentTarget).get("file");
        const wrong = !(file instanceof File) || file.name === "" ? "Choose the file" : file.size > MOST_IMPORT_BYTES ? UPLOAD_PROBLEMS["too-big"][1] : undefined;
        setMessage(wrong);
        if (wrong) event.preventDefault();
      }}
    >
      <Field id="kind" label="What it holds">
        <select id="kind" name="kind" defaultValue="shipments">
          {IMPORT_KINDS.map((kind) => (
            <option key={kind} value={kind}>
              {IMPORT_KIND_NAMES[kind]}
            </option>
          ))}
        </select>
      </Field>
      <Field id="file" label="File" hint="CSV of up to 100 MB, about a million shipments" error={message}>
        <input {...describedBy("file", { hint: true, error: message })} type="file" name="file" accept=".csv,.txt,.tsv,text/csv,text/plain" />
      </Field>
      <button type="submit" className="button tight">
        Send it and look at its first rows
      </button>
      <p className="small soft">Nothing is taken in before you have seen how it is read.</p>
    </form>
  );
}
