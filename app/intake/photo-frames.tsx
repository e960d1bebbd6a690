import type { ReactNode } from "react";
import type { Words } from "@/lib/messages/words";
import css from "./photo-frames.module.css";

export const ASKED_PHOTOS = 3;

/** What to show on a photo: three outlines in the frame of a camera. */
export function PhotoFrames({ words }: { words: Words }) {
  return (
    <section aria-label={words("photos.frame.title")}>
      <ul className={css.frames}>
        <li>
          <Frame>
            <path d="M30 14h44v18H30z M44 32v6h16v-6" />
            <path d="M52 38c0 22-14 10-14 40" className={css.shown} />
            <path d="M16 78h72v10H16z" />
          </Frame>
          {words("photos.frame.drain")}
        </li>
        <li>
          <Frame>
            <path d="M14 56h34v32H14z M24 56v-8h14v8" />
            <path d="M31 48c0-34 44-30 44 6v14" className={css.shown} />
            <path d="M66 70h18v16H66z" />
          </Frame>
          {words("photos.frame.vent")}
        </li>
        <li>
          <Frame>
            <circle cx="50" cy="46" r="24" />
            <circle cx="50" cy="46" r="9" />
            <path d="M50 70v6 M43 84c0-5 7-10 7-10s7 5 7 10a7 7 0 0 1-14 0z" className={css.shown} />
          </Frame>
          {words("photos.frame.oil")}
        </li>
      </ul>
    </section>
  );
}

function Frame({ children }: { children: ReactNode }) {
  return (
    <svg viewBox="0 0 100 100" aria-hidden="true" className={css.frame}>
      <path d="M4 18V4h14 M82 4h14v14 M96 82v14H82 M18 96H4V82" className={css.corner} />
      {children}
    </svg>
  );
}
