import { monthInWords } from "@/lib/domain/reporting/month";
import styles from "./charts.module.css";
import { drawn, type Scale, tickWords } from "./scale";
import { Unspoken } from "./unspoken";

/** Ruled values across the drawing, with their numbers at the left and the unit above. */
export function ValueAxis({ scale, from, to, unit }: { scale: Scale; from: number; to: number; unit: string }) {
  return (
    <Unspoken>
      {scale.ticks.map((tick) => (
        <g key={tick}>
          <line className={styles.grid} x1={from} x2={to} y1={drawn(scale.at(tick))} y2={drawn(scale.at(tick))} />
          <text className={styles.tick} x={from - 6} y={drawn(scale.at(tick) + 4)} textAnchor="end">
            {tickWords(tick)}
          </text>
        </g>
      ))}
      <text className={styles.tick} x={from - 38} y={drawn(Math.min(...scale.ticks.map((tick) => scale.at(tick))) - 12)}>
        {unit}
      </text>
    </Unspoken>
  );
}

/** Months below the drawing: each by its first letter as far as there is room, each January with its year. */
export function MonthAxis({ months, middle, width, y }: { months: readonly string[]; middle: (index: number) => number; width: number; y: number }) {
  const every = width >= 11 ? 1 : 3;
  return (
    <Unspoken>
      {months.map((month, index) => {
        const isYear = month.endsWith("-01") || index === 0;
        return (
          <g key={month}>
            {month.endsWith("-01") ? <line className={styles.year} x1={drawn(middle(index) - width / 2)} x2={drawn(middle(index) - width / 2)} y1={y} y2={y + 32} /> : null}
            {index % every === 0 || isYear ? (
              <text className={styles.tick} x={drawn(middle(index))} y={y + 15} textAnchor="middle">
                {monthInWords(month).slice(0, width >= 30 ? 3 : 1)}
              </text>
            ) : null}
            {isYear && !months[index + 1]?.endsWith("-01") ? (
              <text className={styles.tick} x={drawn(middle(index) - width / 2 + 4)} y={y + 31}>
                {month.slice(0, 4)}
              </text>
            ) : null}
          </g>
        );
      })}
    </Unspoken>
  );
}

/** Numbers below the drawing, with what they are. */
export function NumberAxis({ scale, y, unit }: { scale: Scale; y: number; unit: string }) {
  return (
    <Unspoken>
      {scale.ticks.map((tick) => (
        <g key={tick}>
          <line className={styles.year} x1={drawn(scale.at(tick))} x2={drawn(scale.at(tick))} y1={y} y2={y + 5} />
          <text className={styles.tick} x={drawn(scale.at(tick))} y={y + 18} textAnchor="middle">
            {tickWords(tick)}
          </text>
        </g>
      ))}
      <text className={styles.tick} x={drawn(scale.at(scale.ticks.at(-1) ?? 0))} y={y + 34} textAnchor="end">
        {unit}
      </text>
    </Unspoken>
  );
}
