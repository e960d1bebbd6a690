import type { ReactNode } from "react";
import css from "./learning.module.css";

/** A ruled table of figures under its caption; too wide for the page it scrolls within its own region. */
export function FiguresTable({ label, caption, children }: { label: string; caption?: string; children: ReactNode }) {
  return (
    <div>
      {caption ? <p className={css.caption}>{caption}</p> : null}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls is reached by key. */}
      <section className="table-region" tabIndex={0} aria-label={label}>
        <table className={css.figures} aria-label={label}>
          {children}
        </table>
      </section>
    </div>
  );
}
