import type { ReactNode } from "react";

/** Parts of a drawing that a screen reader passes over: the table tells the same. */
export function Unspoken({ children }: { children: ReactNode }) {
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: nothing in it takes the focus
  return <g aria-hidden="true">{children}</g>;
}
