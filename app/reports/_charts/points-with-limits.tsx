import styles from "./charts.module.css";
import { drawn } from "./scale";
import { Unspoken } from "./unspoken";

export interface LimitedPoint {
  key: string;
  x: number;
  /** Null where there is nothing to draw a point of. */
  y: number | null;
  /** Filled where it is known, open where some is still to come, and with a frame about it where it stands outside. */
  isKnown: boolean;
  isOutside: boolean;
  interval: { lower: number; upper: number } | null;
  /** The upper one null where it lies beyond the drawing. */
  limits: { center: number; lower: number; upper: number | null } | null;
  /** What the mark says and where it leads. */
  label: string;
  href: string;
  /** Words in place of a point. */
  absent: string | null;
}

/** Points joined by a line, limits stepping about them, and behind each column the way to what it counts. */
export function PointsWithLimits({ points, width, top, bottom }: { points: readonly LimitedPoint[]; width: number; top: number; bottom: number }) {
  const half = width / 2;
  const step = (of: "center" | "lower" | "upper") => points.map(({ x, limits }) => (limits?.[of] == null ? "" : `M${drawn(x - half)} ${drawn(limits[of])}H${drawn(x + half)}`)).join("");
  const joined = points.map(({ x, y }, index) => (y === null ? "" : `${points[index - 1]?.y == null ? "M" : "L"}${drawn(x)} ${drawn(y)}`)).join("");
  return (
    <>
      <Unspoken>
        {points.map(({ key, x, isKnown, y }) => (isKnown || y === null ? null : <rect key={key} className={styles.hatched} x={drawn(x - half)} y={top} width={drawn(width)} height={bottom - top} />))}
        <path className={styles.limit} d={step("upper")} />
        <path className={styles.limit} d={step("lower")} />
        <path className={styles.center} d={step("center")} />
        <path className={styles.joined} d={joined} />
      </Unspoken>
      {points.map(({ key, x, y, isKnown, isOutside, interval, label, href, absent }) => (
        <a key={key} href={href} aria-label={label} className={styles.way}>
          <title>{label}</title>
          <rect className={styles.target} x={drawn(x - half)} y={top} width={drawn(width)} height={bottom - top} />
          {absent ? (
            <text className={styles.absent} transform={`translate(${drawn(x + 4)} ${bottom - 6}) rotate(-90)`}>
              {absent}
            </text>
          ) : null}
          {interval ? <line className={styles.whisker} x1={drawn(x)} x2={drawn(x)} y1={drawn(interval.lower)} y2={drawn(interval.upper)} /> : null}
          {y === null ? null : <circle className={isKnown ? styles.known : styles.open} cx={drawn(x)} cy={drawn(y)} r="4.5" />}
          {y !== null && isOutside ? <rect className={styles.outside} x={drawn(x - 9)} y={drawn(y - 9)} width="18" height="18" /> : null}
        </a>
      ))}
    </>
  );
}
