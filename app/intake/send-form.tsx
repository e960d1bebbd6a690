"use client";

import Link from "next/link";
import type { FormState } from "@/app/_components/form-state";
import { Problem } from "@/app/_components/problem";
import { submitted, useSending } from "@/app/_components/use-sending";
import { useSay } from "@/app/_language/browser-words";

/** The last button: sends once, however often it is pressed, and says so when it did not arrive. */
export function SendForm({ reference, action, title, label, back }: { reference: string; action: (before: FormState, form: FormData) => Promise<FormState>; title: string; label: string; back: string }) {
  const say = useSay();
  const {
    state: { problem },
    postAction,
    isSending,
    send,
  } = useSending(
    action,
    say("browser.lost.claim"),
    () => void import("@/app/_device/kept-on-device").then(({ forgetComplaint }) => forgetComplaint()).catch(() => {}),
    // It goes by itself then, once however often: the server tells one claim from two.
    () => void import("@/app/_device/kept-on-device").then(({ changeComplaint }) => changeComplaint((kept) => ({ ...kept, reference, isSent: true }))).catch(() => {}),
  );
  return (
    <form
      action={postAction}
      onSubmit={(event) => {
        event.preventDefault();
        send(submitted(event));
      }}
    >
      {problem ? <title>{`${say("browser.errorTitle", { title })} - Fit or Fault`}</title> : null}
      <Problem sentence={problem} />
      <div className="foot">
        <Link className="button plain" href={back}>
          {say("browser.back")}
        </Link>
        <button type="submit" className="button" aria-disabled={isSending}>
          {isSending ? say("browser.sending") : label}
        </button>
      </div>
    </form>
  );
}
