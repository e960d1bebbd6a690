import type { ReactNode } from "react";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { count, tightRate } from "../../figures-in-words";
import { IntervalMark } from "../../interval-mark";
import styles from "../../reports.module.css";

export interface RateLine {
  key: string;
  name: ReactNode;
  /** Units shipped, or unit-months in service. */
  exposure: number;
  claims: number;
  /** The claims behind the count. */
  href: string;
  rate: Interval | null;
}

/** Claims against what they came of, line by line, folded away until it is asked for unless it is short. */
export function RateTable({ title, isOpen = false, first, exposure, per, lines, file }: { title: string; isOpen?: boolean; first: string; exposure: string; per: string; lines: readonly RateLine[]; file: string }) {
  const end = Math.max(0, ...lines.map(({ rate, claims }) => (claims > 2 && rate ? rate.upper : 0)));
  return (
    <details className={`${styles.part} ${styles.fold}`} open={isOpen}>
      <summary>
        <h2>{title}</h2>
      </summary>
      <section className="table-region" aria-label={title}>
        <table className={styles.list}>
          <thead>
            <tr>
              <th scope="col">{first}</th>
              <th scope="col" className="num">
                {exposure}
              </th>
              <th scope="col" className="num">
                Claims
              </th>
              <th scope="col" className="num">
                {per} (90 %)
              </th>
              {end > 0 ? <th scope="col">0 to {end < 10 ? end.toFixed(1) : Math.round(end)}</th> : null}
            </tr>
          </thead>
          <tbody>
            {lines.map(({ key, name, exposure: units, claims, href, rate }) => (
              <tr key={key}>
                <th scope="row" className={styles.nowrap}>
                  {name}
                </th>
                <td className="num">{count(units)}</td>
                <td className="num">{claims > 0 ? <a href={href}>{count(claims)}</a> : 0}</td>
                <td className="num">{tightRate(rate, claims, "nothing to divide by")}</td>
                {end > 0 ? <td>{rate && claims > 2 ? <IntervalMark interval={rate} end={end} /> : null}</td> : null}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className="acts no-print">
        <a className="button tight plain" href={file}>
          This table as CSV
        </a>
        <a className="button tight plain" href={`${file}&format=xlsx`}>
          as a workbook
        </a>
      </p>
    </details>
  );
}
