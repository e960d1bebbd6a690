"use client";

import { type ReactNode, useActionState } from "react";
import { ErrorSummary } from "@/app/_components/error-summary";
import { type DeskFormState, UNTOUCHED } from "@/app/_desk/form-state";

export function BeginForm({ action, children }: { action: (before: DeskFormState, form: FormData) => Promise<DeskFormState>; children: ReactNode }) {
  const [{ problem }, send, isSending] = useActionState(action, UNTOUCHED);
  return (
    <form action={send}>
      <ErrorSummary errors={problem ? [{ field: "main", message: problem }] : []} />
      {children}
      <div className="acts">
        <button type="submit" className="button" disabled={isSending}>
          Begin a chargeback with what is ticked
        </button>
      </div>
    </form>
  );
}
