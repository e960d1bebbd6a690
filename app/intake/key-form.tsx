"use client";

import { type ReactNode, useActionState } from "react";
import { type FormState, UNTOUCHED } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";

/**
 * The button that spends a mailed one-time key.
 *
 * @param children what stands above the button
 * @param instead what stands there once the key turned out to be spent
 */
export function KeyForm({ action, linkKey, label, children, instead }: { action: (before: FormState, form: FormData) => Promise<FormState>; linkKey: string; label: string; children: ReactNode; instead: ReactNode }) {
  const [{ problem }, spend, isSpending] = useActionState(action, UNTOUCHED);
  if (problem) {
    return (
      <>
        <Problem sentence={problem} />
        {instead}
      </>
    );
  }
  return (
    <form action={spend}>
      {children}
      <input type="hidden" name="key" value={linkKey} />
      <button type="submit" className="button" aria-disabled={isSpending}>
        {label}
      </button>
    </form>
  );
}
