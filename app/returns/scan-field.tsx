"use client";

import { useEffect, useRef } from "react";
import { NotSent } from "@/app/queue/[claimId]/bench-inspection/not-sent";
import { useBenchForm } from "@/app/queue/[claimId]/bench-inspection/use-bench-form";
import { lookUpScanned } from "./actions";
import css from "./returns.module.css";

/**
 * The one field for a scanner that types like a keyboard, and for fingers. Whatever is typed while nothing else is being
 * written lands in it, so that a label can be scanned without touching the screen.
 */
export function ScanField({ open }: { open?: { parcelId: string; number: string; seen: number } | undefined }) {
  const field = useRef<HTMLInputElement>(null);
  const { isSending, waits, tied } = useBenchForm(lookUpScanned);
  useEffect(() => {
    field.current?.focus();
    const catchTyping = ({ key, target, ctrlKey, altKey, metaKey }: KeyboardEvent) => {
      const isWriting = target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement;
      if (!isWriting && key.length === 1 && key !== " " && !ctrlKey && !altKey && !metaKey) field.current?.focus();
    };
    document.addEventListener("keydown", catchTyping);
    return () => document.removeEventListener("keydown", catchTyping);
  }, []);
  return (
    <form {...tied} className={`${css.scan} no-print`}>
      {open ? (
        <>
          <input type="hidden" name="parcelId" value={open.parcelId} />
          <input type="hidden" name="of" value={open.number} />
          <input type="hidden" name="seen" value={open.seen} />
        </>
      ) : null}
      <label htmlFor="scanned">{open ? "Scan a place, or the next label" : "Scan a label, or type its number"}</label>
      {/* biome-ignore lint/a11y/noAutofocus: a scanner types without asking, also before the script is there that turns its signs here */}
      <input ref={field} id="scanned" name="scanned" autoFocus autoComplete="off" autoCapitalize="characters" spellCheck={false} enterKeyHint="go" maxLength={400} />
      <button type="submit" className="button plain" aria-disabled={isSending}>
        Look up
      </button>
      <NotSent waits={waits} className={css.across} />
    </form>
  );
}
