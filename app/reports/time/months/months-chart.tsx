import type { ControlChart } from "@/lib/domain/reporting/control-chart";
import { MonthAxis, ValueAxis } from "../../_charts/axes";
import { Chart } from "../../_charts/chart";
import styles from "../../_charts/charts.module.css";
import { PointsWithLimits } from "../../_charts/points-with-limits";
import { columns, drawn, scaleTo } from "../../_charts/scale";
import { figure } from "../../figures-in-words";
import { fine, monthMark } from "./months-in-words";
import { Unspoken } from "../../_charts/unspoken";

const WIDTH = 940;
const HEIGHT = 360;
const LEFT = 48;
const RIGHT = 850;
const TOP = 46;
const BOTTOM = 316;

/** Claims by month between the limits that chance leaves. */
export function MonthsChart({ chart: { months, changes }, by, title, hrefOf }: { chart: ControlChart; by: "shipped" | "filed"; title: string; hrefOf: (month: string, claims: number) => string }) {
  // Of the limits three in four are to be seen: those of months with hardly any units would press the rest flat.
  const uppers = months.flatMap(({ limits }) => (limits ? [limits.upper] : [])).sort((a, b) => a - b);
  const tallest = Math.max(...months.map(({ rate, limits }) => Math.max(rate?.estimate ?? 0, limits?.center ?? 0)), uppers[Math.floor(uppers.length * 0.75)] ?? 0, 1e-6);
  const scale = scaleTo(tallest * 1.05, BOTTOM, TOP);
  const { middle, width } = columns(months.length, LEFT, RIGHT);
  const last = months.findLast(({ limits }) => limits !== null)?.limits;
  return (
    <Chart
      title={title}
      label={`Claims per 1,000 ${by === "shipped" ? "shipped" : "unit-months"} by month of ${by === "shipped" ? "shipping" : "filing"}; each mark leads to its claims. The same figures stand in the table below.`}
      width={WIDTH}
      height={HEIGHT}
      note={
        <p>
          Filled: known. Open on hatching: brought to what it will be once all claims are in and decided, with its 90 % interval. Dashed: what chance leaves about the level, in all but one month in 370. Framed: outside of it.
        </p>
      }
    >
      <ValueAxis scale={scale} from={LEFT} to={RIGHT} unit={`per 1,000 ${by === "shipped" ? "shipped" : "unit-months"}`} />
      <MonthAxis months={months.map(({ month }) => month)} middle={middle} width={width} y={BOTTOM} />
      <PointsWithLimits
        width={width}
        top={TOP}
        bottom={BOTTOM}
        points={months.map((month, index) => ({
          key: month.month,
          x: middle(index),
          y: month.rate ? scale.at(month.rate.estimate) : null,
          isKnown: month.kind === "complete",
          isOutside: month.outside !== null,
          interval: month.rate && month.kind === "incomplete" ? { lower: scale.at(month.rate.lower), upper: scale.at(month.rate.upper) } : null,
          limits: month.limits && { center: scale.at(month.limits.center), lower: scale.at(month.limits.lower), upper: month.limits.upper > (scale.ticks.at(-1) ?? 0) ? null : scale.at(month.limits.upper) },
          label: monthMark(month, by),
          href: hrefOf(month.month, month.claims),
          absent: month.kind === "empty" ? (by === "shipped" ? "none shipped" : "none in the field") : month.kind === "too-new" ? "too new to judge" : null,
        }))}
      />
      <Unspoken>
        {changes.map(({ start, earliest, latest, ratio }) => {
          const x = middle(start) - width / 2;
          const isLate = x > (LEFT + RIGHT) / 2;
          return (
            <g key={start}>
              <line className={styles.change} x1={drawn(x)} x2={drawn(x)} y1={TOP - 14} y2={BOTTOM} />
              <path className={styles.perhaps} d={`M${drawn(middle(earliest) - width / 2)} ${TOP - 8}v-6H${drawn(middle(latest) + width / 2)}v6`} />
              <text className={styles.said} x={drawn(isLate ? x - 6 : x + 6)} y={TOP - 20} textAnchor={isLate ? "end" : "start"}>
                {ratio.estimate === null ? "claims from here on" : `from here ${figure(ratio.estimate)} times as many`}
              </text>
            </g>
          );
        })}
        {last ? (
          <>
            <text className={styles.tick} x={RIGHT + 6} y={drawn(scale.at(last.center) + 4)}>
              level {fine(last.center)}
            </text>
            <text className={styles.tick} x={RIGHT + 6} y={drawn(Math.min(scale.at(last.upper), scale.at(last.center) - 14) + 4)}>
              upper limit
            </text>
            {last.lower > 0 ? (
              <text className={styles.tick} x={RIGHT + 6} y={drawn(Math.max(scale.at(last.lower), scale.at(last.center) + 14) + 4)}>
                lower limit
              </text>
            ) : null}
          </>
        ) : null}
      </Unspoken>
    </Chart>
  );
}

/** The running sum of claims beyond the mean: level while nothing changes, and turning where something did. */
export function CumulativeChart({ chart: { months, changes }, title }: { chart: ControlChart; title: string }) {
  const sums = months.map(({ cumulative }) => cumulative);
  const known = sums.filter((sum) => sum !== null);
  const most = Math.max(...known.map(Math.abs), 1);
  const height = 206;
  const [top, bottom] = [40, 166];
  const zero = (top + bottom) / 2;
  const at = (sum: number) => zero - (sum / most) * (zero - top);
  const { middle, width } = columns(months.length, LEFT, RIGHT);
  return (
    <Chart title={title} label="Running sum of claims beyond the mean; the values stand in the table below." width={WIDTH} height={height}>
      <Unspoken>
        <line className={styles.year} x1={LEFT} x2={RIGHT} y1={zero} y2={zero} />
        {[most, 0, -most].map((sum) => (
          <text key={sum} className={styles.tick} x={LEFT - 6} y={drawn(at(sum) + 4)} textAnchor="end">
            {sum > 0 ? "+" : ""}
            {Math.round(sum)}
          </text>
        ))}
        <path className={styles.line} d={sums.map((sum, index) => (sum === null ? "" : `${sums[index - 1] == null ? "M" : "L"}${drawn(middle(index))} ${drawn(at(sum))}`)).join("")} />
        {changes.map(({ start }) => (
          <line key={start} className={styles.change} x1={drawn(middle(start) - width / 2)} x2={drawn(middle(start) - width / 2)} y1={top - 6} y2={bottom} />
        ))}
        <text className={styles.tick} x={LEFT - 38} y={16}>
          claims beyond the mean
        </text>
      </Unspoken>
      <MonthAxis months={months.map(({ month }) => month)} middle={middle} width={width} y={bottom} />
    </Chart>
  );
}
