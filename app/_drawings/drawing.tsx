import type { ReactNode } from "react";
import css from "./drawings.module.css";

/**
 * The frame of a drawing, 360 by 200.
 *
 * @param caption what it shows, for those who cannot see it
 * @param legend what its letters mean
 */
export function Drawing({ caption, legend, children }: { caption: string; legend: string; children: ReactNode }) {
  return (
    <figure className={css.figure}>
      <svg className={css.drawing} viewBox="0 0 360 200" role="img">
        <title>{caption}</title>
        {children}
      </svg>
      <figcaption>{legend}</figcaption>
    </figure>
  );
}

/** Small drawings beside an option, 120 by 80 each: the option's words say the same. */
export function Pictures({ shapes }: { shapes: readonly (() => ReactNode)[] }) {
  return (
    <span className={css.pictures}>
      {shapes.map((Shapes) => (
        <svg key={Shapes.name} className={css.picture} viewBox="0 0 120 80" aria-hidden="true" focusable="false">
          <Shapes />
        </svg>
      ))}
    </span>
  );
}
