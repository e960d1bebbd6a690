"use client";

import { useActionState } from "react";
import { type FormState, UNTOUCHED } from "@/app/intake/form-state";

/** A button that ends the complaint, under a fold so that it is not pressed by accident. */
export function EndForm({ action, label }: { action: (before: FormState, form: FormData) => Promise<FormState>; label: string }) {
  const [{ problem }, send] = useActionState(action, UNTOUCHED);
  return (
    <form action={send}>
      {problem ? (
        <p className="error" role="alert">
          {problem}
        </p>
      ) : null}
      <button type="submit" className="button plain">
        {label}
      </button>
    </form>
  );
}
