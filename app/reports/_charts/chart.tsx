import type { ReactNode } from "react";
import styles from "./charts.module.css";

/**
 * A chart's frame: the finding in words, the drawing, and what to read beside it. Wider than a phone it scrolls within its
 * frame; the same figures stand in a table below.
 *
 * @param title what the chart shows, as a sentence
 * @param label what a screen reader is told of the drawing before its marks
 */
export function Chart({ title, label, width, height, note, children }: { title: string; label: string; width: number; height: number; note?: ReactNode; children: ReactNode }) {
  return (
    <figure className={styles.chart}>
      <figcaption>{title}</figcaption>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard */}
      <section className={styles.frame} tabIndex={0} aria-label={title}>
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing with links in it is a group, not an image */}
        <svg viewBox={`0 0 ${width} ${height}`} role="group" aria-label={label}>
          {children}
        </svg>
      </section>
      {note ? <div className="small soft">{note}</div> : null}
    </figure>
  );
}

/** The hatching that charts fill with, defined once on a page so that its id is unique. */
export function ChartHatching() {
  return (
    <svg className="patterns" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="chart-hatched" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line className={styles.hatch} x1="0" y1="0" x2="0" y2="7" />
        </pattern>
      </defs>
    </svg>
  );
}
