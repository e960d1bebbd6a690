"use client";

import Link from "next/link";
import { unstable_rethrow } from "next/navigation";
import { type FormEvent, useActionState, useState, useTransition } from "react";
import { type FormState, UNTOUCHED } from "./form-state";
import { Problem } from "./problem";

const NOT_SENT = "Not sent yet: there is no connection to us. Everything is kept; try again";

/** The last button: sends once, however often it is pressed, and says so when it did not arrive. */
export function SendForm({ action, title, label, back }: { action: (before: FormState, form: FormData) => Promise<FormState>; title: string; label: string; back: string }) {
  const [posted, postAction] = useActionState(action, UNTOUCHED);
  const [answered, setAnswered] = useState<FormState | null>(null);
  const [isSending, startSending] = useTransition();
  const problem = (answered ?? posted).problem;

  function submit(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    if (isSending) return;
    const form = new FormData(event.currentTarget);
    setAnswered({ messages: {} });
    startSending(async () => {
      try {
        setAnswered(await action(UNTOUCHED, form));
      } catch (error) {
        unstable_rethrow(error);
        setAnswered({ messages: {}, problem: NOT_SENT });
      }
    });
  }

  return (
    <form action={postAction} onSubmit={submit}>
      {problem ? <title>{`Error: ${title} - Fit or Fault`}</title> : null}
      <Problem sentence={problem} />
      <div className="foot">
        <Link className="button plain" href={back}>
          Back
        </Link>
        <button type="submit" className="button" aria-disabled={isSending}>
          {isSending ? "Sending" : label}
        </button>
      </div>
    </form>
  );
}
