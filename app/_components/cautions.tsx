import { type Caution, cautionInWords } from "@/lib/domain/diagnosis/cautions";
import type { CautionCode } from "@/lib/domain/diagnosis/knowledge";
import type { Say } from "@/lib/domain/say";
import css from "./cautions.module.css";

/** The cautions of the work at hand, in one frame above it; why the engine must stand still comes first. */
export function Cautions({ codes, stop = null, say }: { codes: readonly CautionCode[]; stop?: Caution | null; say: Say }) {
  const cautions = [...(stop ? [stop] : []), ...codes.map((code) => cautionInWords(code, say))];
  if (cautions.length === 0) return null;
  return (
    <div className={`caution ${css.cautions}`}>
      {cautions.map(({ title, sentence }) => (
        <p key={title}>
          <strong>{title}.</strong> {sentence}
        </p>
      ))}
    </div>
  );
}
