import type { Provenance } from "@/lib/domain/diagnosis/knowledge";
import { provenanceInWords } from "@/lib/domain/diagnosis/provenance-words";
import css from "./knowledge.module.css";

/** Where a figure comes from, beside it. */
export function Ground({ provenance }: { provenance: Provenance }) {
  return <span className={css.ground}>{provenanceInWords(provenance)}</span>;
}

/** How far a ratio speaks for (right) or against (left), on one scale of factors from a hundredth to a hundredfold. */
export function RatioMark({ ratio }: { ratio: number }) {
  const reach = Math.min(1, Math.abs(Math.log10(ratio)) / 2) * 50;
  return (
    <svg className={css.ratio} aria-hidden="true" focusable="false">
      <line className={css.middle} x1="50%" x2="50%" y1="0" y2="12" />
      {reach > 0 ? <rect className={ratio > 1 ? css.for : css.against} x={`${ratio > 1 ? 50 : 50 - reach}%`} width={`${reach}%`} y="2" height="8" /> : null}
    </svg>
  );
}
