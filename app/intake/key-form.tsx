"use client";

import { useActionState } from "react";
import { type FormState, UNTOUCHED } from "./form-state";
import { Problem } from "./problem";

/** The button that spends a mailed one-time key. */
export function KeyForm({ action, linkKey, label }: { action: (before: FormState, form: FormData) => Promise<FormState>; linkKey: string; label: string }) {
  const [{ problem }, spend, isSpending] = useActionState(action, UNTOUCHED);
  return (
    <form action={spend}>
      <Problem sentence={problem} />
      <input type="hidden" name="key" value={linkKey} />
      <button type="submit" className="button" aria-disabled={isSpending}>
        {label}
      </button>
    </form>
  );
}
