import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import styles from "../../reports.module.css";

/** Ends of the scale, in the logarithm to base 2 of the shape: a quarter to four. */
const REACH = 2;

/** A shape with its interval on a scale from early life to wear, with 1 in the middle; stands beside its numbers. */
export function ShapeMark({ shape }: { shape: Interval }) {
  const at = (value: number) => `${((Math.min(REACH, Math.max(-REACH, Math.log2(value))) + REACH) / (2 * REACH)) * 100}%`;
  return (
    <svg className={styles.interval} aria-hidden="true" focusable="false">
      <line className={styles.base} x1="0" x2="100%" y1="10" y2="10" />
      <line className={styles.reference} x1="50%" x2="50%" y1="0" y2="20" />
      <line className={styles.whisker} x1={at(shape.lower)} x2={at(shape.upper)} y1="10" y2="10" />
      <circle className={styles.point} cx={at(shape.estimate)} cy="10" r="4" />
    </svg>
  );
}
