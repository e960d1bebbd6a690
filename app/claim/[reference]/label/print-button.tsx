"use client";

import { useSyncExternalStore } from "react";

const never = () => () => {};

/** Opens the browser's own print window; without script there is no button, since it would do nothing. */
export function PrintButton({ label }: { label: string }) {
  const hasScript = useSyncExternalStore(never, () => true, () => false);
  if (!hasScript) return null;
  return (
    <p>
      <button type="button" className="button" onClick={() => window.print()}>
        {label}
      </button>
    </p>
  );
}
