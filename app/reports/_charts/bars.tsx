import styles from "./charts.module.css";
import { drawn } from "./scale";
import { Unspoken } from "./unspoken";

export interface Bar {
  key: string;
  x: number;
  width: number;
  top: number;
  bottom: number;
  /** What stands above it. */
  label: string;
  /** A guess, not a count: drawn hatched. */
  isExpected: boolean;
}

/** Bars with their numbers above them. */
export function Bars({ bars }: { bars: readonly Bar[] }) {
  return bars.map(({ key, x, width, top, bottom, label, isExpected }) => (
    <Unspoken key={key}>
      <rect className={isExpected ? styles.expected : styles.counted} x={drawn(x)} y={drawn(top)} width={drawn(width)} height={drawn(Math.max(0, bottom - top))} />
      <text className={styles.mark} x={drawn(x + width / 2)} y={drawn(top - 6)} textAnchor="middle">
        {label}
      </text>
    </Unspoken>
  ));
}
