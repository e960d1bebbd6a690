"use client";

import { unstable_rethrow } from "next/navigation";
import { type FormEvent, useActionState, useRef, useState, useTransition } from "react";
import { type FormState, UNTOUCHED } from "./form-state";

interface Sending {
  /** What the form came back with. */
  state: FormState;
  /** The same, but only of a post without script: what was typed has to be filled in again. */
  posted: FormState;
  /** The action of a plain post. */
  postAction: (form: FormData) => void;
  isSending: boolean;
  /** Sends what the form holds, once however often it is pressed. `meanwhile` is shown until the answer is there. */
  send: (form: FormData, meanwhile?: FormState) => void;
  /** Shows this instead of what the form came back with last. */
  show: (state: FormState) => void;
}

/**
 * Sends a form by its action. Without script it is posted; with it, a lost signal is told in words instead of losing the
 * page, and what stands in the form stays.
 *
 * @param lost said when no answer came
 * @param onSaved called when the action leads elsewhere: the server has it
 * @param onLost called when no answer came
 */
export function useSending(action: (before: FormState, form: FormData) => Promise<FormState>, lost: string, onSaved: (form: FormData) => void = () => {}, onLost: (form: FormData) => void = () => {}): Sending {
  const [posted, postAction] = useActionState(action, UNTOUCHED);
  const [answered, setAnswered] = useState<FormState | null>(null);
  const [isSending, startSending] = useTransition();
  // Known at once, and not only once it is drawn: of two quick taps the second sends nothing.
  const isBusy = useRef(false);

  function send(form: FormData, meanwhile: FormState = UNTOUCHED) {
    if (isBusy.current || isSending) return;
    isBusy.current = true;
    setAnswered(meanwhile);
    startSending(async () => {
      try {
        setAnswered(await action(UNTOUCHED, form));
      } catch (error) {
        if (isNavigation(error)) onSaved(form);
        unstable_rethrow(error);
        setAnswered({ ...meanwhile, problem: lost });
        onLost(form);
      } finally {
        isBusy.current = false;
      }
    });
  }
  return { state: answered ?? posted, posted, postAction, isSending, send, show: setAnswered };
}

/** What a form holds as it is submitted, with the button that was pressed. */
export function submitted(event: FormEvent<HTMLFormElement>): FormData {
  return new FormData(event.currentTarget, event.nativeEvent instanceof SubmitEvent ? event.nativeEvent.submitter : null);
}

/** Whether an action ended by leading elsewhere. */
function isNavigation(error: unknown): boolean {
  try {
    unstable_rethrow(error);
    return false;
  } catch {
    return true;
  }
}
