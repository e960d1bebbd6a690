import styles from "./signals.module.css";

const TICKS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] as const;

/** From so many ticks on a number beside each would run into the next on paper and phones. */
const CLOSE = 7;

const isPowerOfTen = (tick: number) => Number.isInteger(Math.log10(tick));

/** The scale that a column of marks shares: a step of its ticks below 1 and one above all that it shows. */
export function ratioScale(ratios: readonly { lower: number; upper: number | "infinite" }[]): { from: number; to: number } {
  const lowest = Math.min(1, ...ratios.map(({ lower }) => lower));
  const highest = Math.max(2, ...ratios.map(({ lower, upper }) => (upper === "infinite" ? lower * 2 : upper)));
  return { from: TICKS.findLast((tick) => tick <= lowest) ?? TICKS[0], to: TICKS.find((tick) => tick >= highest) ?? TICKS[TICKS.length - 1] ?? 1000 };
}

/**
 * How many times the expected, with its interval, on a scale where each doubling is as wide as the next; the broken line
 * stands at 1, as expected. Its figures stand beside it in words.
 */
export function RatioMark({ ratio, lower, upper, scale: { from, to } }: { ratio: number | "infinite"; lower: number; upper: number | "infinite"; scale: { from: number; to: number } }) {
  const at = (value: number | "infinite") => `${(value === "infinite" ? 1 : Math.min(1, Math.max(0, Math.log(Math.max(value, 1e-9) / from) / Math.log(to / from)))) * 100}%`;
  const ticks = TICKS.filter((tick) => tick >= from && tick <= to);
  return (
    <svg className={styles.mark} aria-hidden="true" focusable="false">
      <line className={styles.base} x1="0" x2="100%" y1="12" y2="12" />
      {ticks.map((tick) => (
        <g key={tick}>
          <line className={tick === 1 ? styles.one : styles.tick} x1={at(tick)} x2={at(tick)} y1={tick === 1 ? 0 : 8} y2={tick === 1 ? 24 : 16} />
          {ticks.length < CLOSE || isPowerOfTen(tick) || tick === to ? (
            <text x={at(tick)} y="38" textAnchor={tick === from ? "start" : tick === to ? "end" : "middle"}>
              {tick}×
            </text>
          ) : null}
        </g>
      ))}
      <line className={styles.whisker} x1={at(lower)} x2={at(upper)} y1="12" y2="12" />
      {ratio === "infinite" ? null : <circle className={styles.point} cx={at(ratio)} cy="12" r="5" />}
    </svg>
  );
}
