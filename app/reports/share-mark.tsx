import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import styles from "./reports.module.css";

/**
 * A share as a ruled length with its interval, on a scale shared by the whole column; stands beside its numbers.
 * Hatching tells the attribution.
 *
 * @param end right end of the scale, which begins at 0
 */
export function ShareMark({ share, end, attribution }: { share: Interval; end: number; attribution: Attribution }) {
  const at = (value: number) => `${(Math.min(value, end) / end) * 100}%`;
  return (
    <svg className={styles.interval} aria-hidden="true" focusable="false">
      <line className={styles.base} x1="0" x2="100%" y1="10" y2="10" />
      <rect className={attribution === "kit" ? styles.kit : `fill-${attribution}`} x="0" y="4" width={at(share.estimate)} height="12" />
      <rect className={styles.frame} x="0" y="4" width={at(share.estimate)} height="12" />
      <line className={styles.limits} x1={at(share.lower)} x2={at(share.upper)} y1="10" y2="10" />
      <line className={styles.limits} x1={at(share.upper)} x2={at(share.upper)} y1="6" y2="14" />
    </svg>
  );
}
