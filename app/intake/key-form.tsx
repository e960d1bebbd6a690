"use client";

import { useActionState, useMemo } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { type FormState, UNTOUCHED } from "./form-state";

/** The button that spends a mailed one-time key. */
export function KeyForm({ action, linkKey, label }: { action: (before: FormState, form: FormData) => Promise<FormState>; linkKey: string; label: string }) {
  const [{ problem }, spend, isSpending] = useActionState(action, UNTOUCHED);
  const errors = useMemo(() => (problem ? [{ field: "open", message: problem }] : []), [problem]);
  return (
    <form action={spend}>
      <ErrorSummary errors={errors} />
      <input type="hidden" name="key" value={linkKey} />
      <button type="submit" id="open" className="button" aria-disabled={isSpending}>
        {label}
      </button>
    </form>
  );
}
