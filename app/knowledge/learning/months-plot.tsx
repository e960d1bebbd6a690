import type { MonthShown } from "@/lib/domain/learning/shown-calibration";
import css from "./learning.module.css";

const HEIGHT = 190;
const LEFT = 46;
const TOP = 10;
const STEP = 62;
const LEAST_MONTHS = 5;

const y = (share: number) => TOP + (1 - share) * HEIGHT;

/** By month of filing: how sure the leader was shown to be, and how often it was then there. Its table stands below. */
export function MonthsPlot({ months, label }: { months: readonly MonthShown[]; label: string }) {
  const width = STEP * Math.max(LEAST_MONTHS, months.length);
  return (
    <svg className={css.months} viewBox={`0 0 ${LEFT + width + 10} ${TOP + HEIGHT + 32}`} role="img" aria-label={label}>
      {[0, 0.25, 0.5, 0.75, 1].map((tick) => (
        <g key={tick}>
          <line className={css.grid} x1={LEFT} x2={LEFT + width} y1={y(tick)} y2={y(tick)} />
          <text className={css.tick} x={LEFT - 6} y={y(tick) + 4} textAnchor="end">
            {`${tick * 100} %`}
          </text>
        </g>
      ))}
      {months.map(({ month, shownForLeader, leaderWasThere: { estimate, lower, upper } }, place) => {
        const at = LEFT + STEP * (place + 0.5);
        return (
          <g key={month}>
            <line className={css.whisker} x1={at} x2={at} y1={y(lower)} y2={y(upper)} />
            <circle className={css.filled} cx={at} cy={y(estimate)} r="5" />
            <rect className={css.hollow} x={at - 16} y={y(shownForLeader) - 4} width="8" height="8" />
            <text className={css.tick} x={at} y={TOP + HEIGHT + 22} textAnchor="middle">
              {month}
            </text>
          </g>
        );
      })}
    </svg>
  );
}
