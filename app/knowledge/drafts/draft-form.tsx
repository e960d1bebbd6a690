"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { useFormStatus } from "react-dom";
import { forgetTyped, keepTyped, restoreTyped } from "@/app/_components/typed-copy";
import css from "../knowledge.module.css";

interface Props {
  action: (form: FormData) => Promise<void>;
  /** Tells this form from the others of the draft. */
  copyKey: string;
  /** It was just kept: the copy on the device is not needed any more. */
  isKept: boolean;
  children: ReactNode;
  /** Buttons beside the one that keeps. */
  acts?: ReactNode;
}

/** A form of a draft. What is typed stays on the device until it is kept, so that a closed tab loses nothing. */
export function DraftForm({ action, copyKey, isKept, children, acts }: Props) {
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => {
    if (isKept) forgetTyped(copyKey);
    else if (form.current) restoreTyped(copyKey, form.current);
  }, [copyKey, isKept]);
  return (
    <form ref={form} action={action} onInput={({ currentTarget }) => keepTyped(copyKey, currentTarget)} noValidate>
      {children}
      <div className={css.acts}>
        <Keep />
        {acts}
      </div>
    </form>
  );
}

function Keep() {
  const { pending } = useFormStatus();
  return (
    <button type="submit" className="button tight" aria-disabled={pending}>
      Keep this form
    </button>
  );
}
