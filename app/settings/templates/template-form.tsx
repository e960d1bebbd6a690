"use client";

import Link from "next/link";
import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { describedBy, Field } from "@/app/_components/field";
import { Problem } from "@/app/_components/problem";
import { UNTOUCHED } from "@/app/_desk/form-state";
import { LONGEST } from "@/lib/domain/intake/fields";
import { dropTemplate, keepTemplate } from "./actions";
import css from "./templates.module.css";

/** One message template in both languages, to be kept or dropped. */
export function TemplateForm({ template }: { template: { id: string; version: number; name: string; english: string; german: string } | null }) {
  const [{ values, messages, problem }, send, isSending] = useActionState(keepTemplate, UNTOUCHED);
  const [dropped, drop] = useActionState(dropTemplate, UNTOUCHED);
  const typed = { name: template?.name ?? "", english: template?.english ?? "", german: template?.german ?? "", ...values };
  const errors = useMemo(() => Object.entries(messages).map(([field, message]) => ({ field, message: message ?? "" })), [messages]);
  const known = template ? (
    <>
      <input type="hidden" name="id" value={template.id} />
      <input type="hidden" name="version" value={template.version} />
    </>
  ) : null;
  const text = (id: "english" | "german", label: string) => (
    <Field id={id} label={label} error={messages[id]}>
      <textarea {...describedBy(id, { error: messages[id] })} name={id} rows={8} lang={id === "german" ? "de" : "en"} defaultValue={typed[id]} key={typed[id]} />
    </Field>
  );
  return (
    <>
      <form action={send} noValidate>
        <Problem sentence={problem ?? dropped.problem} />
        <ErrorSummary errors={errors} />
        {known}
        <Field id="name" label="Name, for the desk" error={messages.name}>
          <input {...describedBy("name", { error: messages.name })} name="name" maxLength={LONGEST.name} autoComplete="off" defaultValue={typed.name} key={typed.name} />
        </Field>
        <div className={css.pair}>
          {text("english", "In English")}
          {text("german", "In German")}
        </div>
        <p className={css.acts}>
          <button type="submit" className="button tight" aria-disabled={isSending}>
            Keep it
          </button>
          <Link href="/settings/templates">Leave it as it was</Link>
        </p>
      </form>
      {template ? (
        <form action={drop} className={css.drop}>
          {known}
          <button type="submit" className="link-button">
            Drop this template
          </button>
        </form>
      ) : null}
    </>
  );
}
