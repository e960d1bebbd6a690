"use client";

import { useEffect, useRef } from "react";

/** What went wrong that lies with no field; takes the focus. */
export function Problem({ sentence }: { sentence: string | undefined }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (sentence) box.current?.focus();
  }, [sentence]);
  if (!sentence) return null;
  return (
    <div ref={box} className="error-summary" role="alert" tabIndex={-1}>
      <strong>{sentence}</strong>
    </div>
  );
}
