import type { PlayRange } from "@/lib/domain/claims/play-readings";
import styles from "./inspection.module.css";

const LEFT = 20;
const WIDTH = 360;

/**
 * The range of a sound unit as a hatched length on a ruled scale, with the reading and two of its standard deviations
 * on it. The same is said in words beside it.
 */
export function PlayScale({ range, measuredMm, spreadMm }: { range: PlayRange; measuredMm: number | null; spreadMm: number }) {
  const end = niceEnd(Math.max(range.max * 2, (measuredMm ?? 0) * 1.1));
  const at = (mm: number) => LEFT + (Math.min(Math.max(mm, 0), end) / end) * WIDTH;
  const ticks = Array.from({ length: 11 }, (_, place) => (end * place) / 10);
  return (
    <svg className={styles.scale} viewBox="0 0 400 92" aria-hidden="true" focusable="false">
      <rect className={styles.sound} x={at(range.min)} y="38" width={at(range.max) - at(range.min)} height="18" />
      <path className={styles.axis} d={`M${LEFT} 56H${LEFT + WIDTH}`} />
      <path className={styles.axis} d={ticks.map((mm, place) => `M${at(mm)} 56v${place % 5 === 0 ? 12 : 6}`).join("")} />
      {[0, end / 2, end].map((mm) => (
        <text key={mm} x={at(mm)} y="80">
          {Number(mm.toPrecision(3))}
        </text>
      ))}
      <path className={styles.limit} d={`M${at(range.max)} 30V56`} />
      {measuredMm === null ? null : (
        <>
          <path className={styles.whisker} d={`M${at(measuredMm - 2 * spreadMm)} 20H${at(measuredMm + 2 * spreadMm)}m0 -5v10M${at(measuredMm - 2 * spreadMm)} 15v10`} />
          <path className={styles.reading} d={`M${at(measuredMm)} 60l-8 -30h16z`} />
        </>
      )}
    </svg>
  );
}

/** A round end of a scale that holds `most`: 0.18 gives 0.2, 0.62 gives 1. */
function niceEnd(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return ([1, 2, 5, 10].find((step) => step * power >= most) ?? 10) * power;
}
