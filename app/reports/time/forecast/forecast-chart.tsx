import type { MonthAhead } from "@/lib/domain/reporting/forecast";
import { MonthAxis, ValueAxis } from "../../_charts/axes";
import { Bars } from "../../_charts/bars";
import { Chart } from "../../_charts/chart";
import styles from "../../_charts/charts.module.css";
import { LineWithBand } from "../../_charts/line-with-band";
import { columns, drawn, scaleTo } from "../../_charts/scale";
import { Unspoken } from "../../_charts/unspoken";
import { count } from "../../figures-in-words";

const WIDTH = 940;
const HEIGHT = 340;
const LEFT = 48;
const RIGHT = 800;
const TOP = 40;
const BOTTOM = 292;

/** Claims month by month ahead, and added up with their band. */
export function ForecastChart({ months, title, href }: { months: readonly MonthAhead[]; title: string; href: string }) {
  const last = months.at(-1);
  if (!last) return null;
  const up = scaleTo(last.upTo.upper, BOTTOM, TOP);
  const { middle, width } = columns(months.length, LEFT, RIGHT);
  const bar = Math.min(46, width * 0.5);
  return (
    <Chart
      title={title}
      label="Claims expected month by month, and added up with their 90 % interval. The same figures stand in the table below."
      width={WIDTH}
      height={HEIGHT}
      note={<p>Line: claims from now on, added up; hatched about it: the 90 % interval. Bars: those of the month. All is a guess from what older units did.</p>}
    >
      <ValueAxis scale={up} from={LEFT} to={RIGHT} unit="claims" />
      <MonthAxis months={months.map(({ month }) => month)} middle={middle} width={width} y={BOTTOM} />
      <LineWithBand points={[{ x: LEFT, y: BOTTOM, lower: BOTTOM, upper: BOTTOM }, ...months.map(({ upTo }, index) => ({ x: middle(index), y: up.at(upTo.estimate), lower: up.at(upTo.lower), upper: up.at(upTo.upper) }))]} />
      <Bars bars={months.map(({ month, claims }, index) => ({ key: month, x: middle(index) - bar / 2, width: bar, top: up.at(claims), bottom: BOTTOM, label: width > 24 ? count(claims) : "", isExpected: true }))} />
      <a className={styles.way} href={href} aria-label="The claims so far, which this rests on">
        <title>The claims so far, which this rests on</title>
        <rect className={styles.target} x={LEFT} y={TOP} width={RIGHT - LEFT} height={BOTTOM - TOP} />
      </a>
      <Unspoken>
        <text className={styles.said} x={drawn(middle(months.length - 1) + 8)} y={drawn(up.at(last.upTo.estimate) + 4)}>
          {last.isAtLeast ? "at least " : ""}
          {count(last.upTo.estimate)}
        </text>
        <text className={styles.tick} x={drawn(middle(months.length - 1) + 8)} y={drawn(up.at(last.upTo.estimate) + 20)}>
          {count(last.upTo.lower)} to {count(last.upTo.upper)}
        </text>
      </Unspoken>
    </Chart>
  );
}
