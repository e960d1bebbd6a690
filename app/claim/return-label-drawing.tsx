import type { ReturnLabel } from "@/lib/domain/claims/return-label";
import { svgPath } from "@/lib/files/barcodes";
import { layOutLabel, type LabelWords } from "@/lib/files/return-label";
import css from "./return-label.module.css";

/** The label of a return to measure: dark on white also on a dark screen, since it is for paper and for scanners. */
export function ReturnLabelDrawing({ label, words, name }: { label: ReturnLabel; words: LabelWords; name: string }) {
  const { width, height, texts, dark, rules } = layOutLabel(label, words);
  return (
    <svg className={css.label} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={`${name}. ${texts.map(({ text }) => text).join(", ")}`} fill="#000">
      <rect width={width} height={height} fill="#fff" />
      <path d={svgPath(dark)} shapeRendering="crispEdges" />
      {rules.map((y) => (
        <rect key={y} y={y} width={width} height="0.25" />
      ))}
      {texts.map(({ text, x, baseline, size, isBold }) => (
        <text key={baseline} x={x} y={baseline} fontSize={size} fontWeight={isBold ? 600 : 500}>
          {text}
        </text>
      ))}
    </svg>
  );
}
