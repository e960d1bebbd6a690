"use client";

import type { FormState } from "@/app/_components/form-state";
import { submitted, useSending } from "@/app/_components/use-sending";
import { useSay } from "@/app/_language/browser-words";

/** A button that ends the complaint, under a fold so that it is not pressed by accident. */
export function EndForm({ action, label }: { action: (before: FormState, form: FormData) => Promise<FormState>; label: string }) {
  const say = useSay();
  const {
    state: { problem },
    postAction,
    send,
  } = useSending(action, say("browser.lost.button"));
  return (
    <form
      action={postAction}
      onSubmit={(event) => {
        event.preventDefault();
        send(submitted(event));
      }}
    >
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
