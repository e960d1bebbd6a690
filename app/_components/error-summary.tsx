"use client";

import { useEffect, useRef } from "react";
import { useSay } from "@/app/_language/browser-words";

export interface FieldError {
  /** Id of the field, or of the first choice of a group. */
  field: string;
  message: string;
}

/** What could not be accepted, above the heading; takes the focus, and leads to each field. */
export function ErrorSummary({ errors }: { errors: readonly FieldError[] }) {
  const box = useRef<HTMLDivElement>(null);
  const say = useSay();
  useEffect(() => {
    if (errors.length > 0) box.current?.focus();
  }, [errors]);
  if (errors.length === 0) return null;
  return (
    <div ref={box} className="error-summary" role="alert" tabIndex={-1}>
      <h2>{errors.length === 1 ? say("browser.summary.one") : say("browser.summary.many", { count: errors.length })}</h2>
      <ul>
        {errors.map(({ field, message }) => (
          <li key={field + message}>
            <a href={`#${field}`}>{message}</a>
          </li>
        ))}
      </ul>
    </div>
  );
}
