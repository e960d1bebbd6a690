import type { Caution } from "@/lib/domain/diagnosis/cautions";
import css from "./intake.module.css";

/** Cautions that have been read in full: a line each, which opens. Why the engine must stand still stays above every further question. */
export function CautionReminder({ cautions }: { cautions: readonly Caution[] }) {
  if (cautions.length === 0) return null;
  return (
    <div className={`caution ${css.read}`}>
      {cautions.map(({ title, sentence }) => (
        <details key={title}>
          <summary>{title}</summary>
          <p>{sentence}</p>
        </details>
      ))}
    </div>
  );
}
