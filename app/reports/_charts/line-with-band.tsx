import styles from "./charts.module.css";
import { drawn } from "./scale";
import { Unspoken } from "./unspoken";

export interface BandPoint {
  x: number;
  y: number;
  lower: number;
  upper: number;
}

/** A line with the band of its interval, hatched so that it shows in print and without colour. In steps where it holds until the next point. */
export function LineWithBand({ points, isStepped = false }: { points: readonly BandPoint[]; isStepped?: boolean }) {
  if (points.length === 0) return null;
  const along = (of: (point: BandPoint) => number) => trace(points.map((point) => ({ x: point.x, y: of(point) })), isStepped);
  const upper = along(({ upper: y }) => y);
  const lower = along(({ lower: y }) => y);
  return (
    <Unspoken>
      <path className={styles.band} d={`M${upper.join("L")}L${[...lower].reverse().join("L")}Z`} />
      <path className={styles.edge} d={`M${upper.join("L")}`} />
      <path className={styles.edge} d={`M${lower.join("L")}`} />
      <path className={styles.line} d={`M${along(({ y }) => y).join("L")}`} />
    </Unspoken>
  );
}

function trace(points: readonly { x: number; y: number }[], isStepped: boolean): readonly string[] {
  return points.flatMap(({ x, y }, index) => {
    const before = points[index - 1];
    const here = `${drawn(x)} ${drawn(y)}`;
    return isStepped && before ? [`${drawn(x)} ${drawn(before.y)}`, here] : [here];
  });
}
