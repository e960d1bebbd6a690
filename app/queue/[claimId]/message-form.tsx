"use client";

import { useActionState, useEffect, useRef } from "react";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";
import { describedBy, Field } from "@/app/_components/field";
import type { Language } from "@/lib/domain/claims/languages";
import type { TemplateGap } from "@/lib/domain/claims/message-templates";

interface Props {
  action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>;
  /** What it is written in: the page is English, and a reader or a spelling check goes by this. */
  language: Language;
  /** What the box holds at first, and the gaps still in it. */
  text: string;
  open: readonly TemplateGap[];
  /** It was filled from a template just now: the box takes the focus. */
  isFilled: boolean;
}

/** A message to the customer. Refused, it comes back as it was typed. */
export function MessageForm({ action, language, text, open, isFilled }: Props) {
  const [{ values, messages, problem }, send, isSending] = useActionState(action, UNTOUCHED);
  const box = useRef<HTMLTextAreaElement>(null);
  useEffect(() => {
    if (isFilled) box.current?.focus();
  }, [isFilled]);
  const typed = values.body ?? text;
  return (
    <form action={send} noValidate id="writing">
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <Field
        id="body"
        label="Message to the customer"
        hint={open.length > 0 ? `This claim does not know ${open.map((gap) => `{${gap}}`).join(", ")}: write it in, or take it out.` : undefined}
        error={messages.body}
      >
        <textarea {...describedBy("body", { hint: open.length > 0, error: messages.body })} ref={box} name="body" lang={language} rows={isFilled ? 8 : 4} defaultValue={typed} key={typed} data-key="m" />
      </Field>
      <button type="submit" className="button tight plain" aria-disabled={isSending}>
        Send the message
      </button>
    </form>
  );
}
