import { LARGER_IS_BETTER, type Measure } from "@/lib/domain/learning/backtest";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import css from "./learning.module.css";

/** A difference with its limits about a line of no difference; to the right is better. Stands beside its numbers. */
export function DifferenceMark({ measure, difference: { estimate, lower, upper } }: { measure: Measure; difference: Interval }) {
  const sign = LARGER_IS_BETTER.has(measure) ? 1 : -1;
  const end = 1.1 * Math.max(Math.abs(lower), Math.abs(upper), 1e-12);
  const at = (value: number) => `${50 + (50 * sign * value) / end}%`;
  return (
    <svg className={css.difference} aria-hidden="true" focusable="false">
      <line className={css.grid} x1="0" x2="100%" y1="9" y2="9" />
      <line className={css.diagonal} x1="50%" x2="50%" y1="0" y2="18" />
      <line className={css.whisker} x1={at(lower)} x2={at(upper)} y1="9" y2="9" />
      <circle className={css.filled} cx={at(estimate)} cy="9" r="4" />
    </svg>
  );
}
