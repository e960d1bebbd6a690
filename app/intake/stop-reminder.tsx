import type { Caution } from "@/lib/domain/diagnosis/cautions";
import css from "./intake.module.css";

/** Why the engine must stand still, once it has been read in full: one line that stays above every further question. */
export function StopReminder({ stop }: { stop: Caution }) {
  return (
    <details className={`caution ${css.stop}`}>
      <summary>{stop.title}</summary>
      <p>{stop.sentence}</p>
    </details>
  );
}
