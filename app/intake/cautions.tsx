import { CAUTIONS } from "@/lib/domain/diagnosis/cautions";
import type { CautionCode } from "@/lib/domain/diagnosis/knowledge";
import css from "./intake.module.css";

/** The cautions of the work at hand, in one frame above it. */
export function Cautions({ codes }: { codes: readonly CautionCode[] }) {
  if (codes.length === 0) return null;
  return (
    <div className={`caution ${css.cautions}`}>
      {codes.map((code) => (
        <p key={code}>
          <strong>{CAUTIONS[code].title}.</strong> {CAUTIONS[code].sentence}
        </p>
      ))}
    </div>
  );
}
