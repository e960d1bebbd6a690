import type { ReactNode } from "react";
import css from "./learning.module.css";

/** A ruled table of figures; too wide for the page it scrolls within its own region. */
export function FiguresTable({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key.
    <section className="table-region" tabIndex={0} aria-label={label}>
      <table className={css.figures}>{children}</table>
    </section>
  );
}
