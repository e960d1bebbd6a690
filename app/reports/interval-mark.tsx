import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import styles from "./reports.module.css";

/**
 * An estimate with its interval on a scale shared by the whole column; stands beside its numbers.
 *
 * @param end right end of the scale, which begins at 0
 * @param line where the reference stands
 */
export function IntervalMark({ interval, end, line, isHigh = false }: { interval: Interval; end: number; line?: number; isHigh?: boolean }) {
  const at = (value: number) => `${(Math.min(value, end) / end) * 100}%`;
  return (
    <svg className={styles.interval} aria-hidden="true" focusable="false">
      <line className={styles.base} x1="0" x2="100%" y1="10" y2="10" />
      {line === undefined ? null : <line className={styles.reference} x1={at(line)} x2={at(line)} y1="0" y2="20" />}
      <line className={styles.whisker} x1={at(interval.lower)} x2={at(interval.upper)} y1="10" y2="10" />
      <circle className={isHigh ? styles.high : styles.point} cx={at(interval.estimate)} cy="10" r="4" />
    </svg>
  );
}
