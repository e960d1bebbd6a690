"use client";

import { type FormEvent, type RefObject, useEffect, useRef } from "react";
import type { FormState } from "@/app/_components/form-state";
import { submitted, useSending } from "@/app/_components/use-sending";
import { stringsOf } from "@/lib/inputs/form";

/** Names the state in which no answer came; it is told beside the button and not as something wrong in the form. */
const LOST = "lost";
const RETRY_MS = 15_000;

/**
 * Sends a form of the bench. When the signal is lost, what stands in the form stays, and goes by itself as soon as there is
 * a signal again.
 */
export function useBenchForm(action: (before: FormState, form: FormData) => Promise<FormState>): {
  form: RefObject<HTMLFormElement | null>;
  state: FormState;
  isSending: boolean;
  /** No answer came: it goes by itself later. */
  waits: boolean;
  tied: { ref: RefObject<HTMLFormElement | null>; action: (form: FormData) => void; onSubmit: (event: FormEvent<HTMLFormElement>) => void };
} {
  const form = useRef<HTMLFormElement>(null);
  const pressed = useRef<readonly [name: string, value: string] | null>(null);
  const { state, postAction, isSending, send } = useSending(action, LOST);
  const waits = state.problem === LOST;

  function post(data: FormData) {
    send(data, { values: stringsOf(data), messages: {} });
  }

  // biome-ignore lint/correctness/useExhaustiveDependencies: with each answer that did not come.
  useEffect(() => {
    if (!waits || isSending) return;
    const again = () => {
      if (!form.current) return;
      // As it stands by then, with the button that was pressed.
      const data = new FormData(form.current);
      if (pressed.current) data.set(...pressed.current);
      post(data);
    };
    addEventListener("online", again);
    const later = setTimeout(again, RETRY_MS);
    return () => {
      removeEventListener("online", again);
      clearTimeout(later);
    };
  }, [state, isSending]);

  const onSubmit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const button = event.nativeEvent instanceof SubmitEvent ? event.nativeEvent.submitter : null;
    pressed.current = button instanceof HTMLButtonElement && button.name ? [button.name, button.value] : null;
    post(submitted(event));
  };
  const { problem: _, ...shown } = state;
  return { form, state: waits ? shown : state, isSending, waits, tied: { ref: form, action: postAction, onSubmit } };
}
