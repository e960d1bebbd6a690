import { modelName } from "@/lib/domain/reporting/catalogue";
import type { CausesTable, Cell, Row } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import { FEWEST_CLAIMS } from "@/lib/domain/reporting/figures";
import { cellAddress, type Parameters } from "../addresses";
import { AttributionMix } from "../attribution-mix";
import { claimsInWords, count, figure, tightLimits, weight } from "../figures-in-words";
import { IntervalMark } from "../interval-mark";
import styles from "../reports.module.css";
import { rowName } from "./finding";

/**
 * Kits down, vehicles across; each cell leads to its causes.
 *
 * @param narrowing what goes along to a cell: the period and all but kit, vehicle and cause
 */
export function Matrix({ table, narrowing }: { table: CausesTable; narrowing: Parameters }) {
  const overall = table.total.rate?.estimate;
  // By the highest estimate: the widest interval of a small cell would flatten all others.
  const highest = Math.max(0, ...table.rows.flatMap(({ cells }) => cells.flatMap((cell) => (isRanked(cell) ? [cell.figures.rate?.estimate ?? 0] : []))));
  return (
    <section className="table-region" aria-label="Claims by kit and vehicle">
      <table className={styles.matrix}>
        <caption className="visually-hidden">Claims by kit and vehicle: rate per 1,000 shipped with its 90 % interval, claims and units shipped. Each cell leads to its causes.</caption>
        <thead>
          <tr>
            <th scope="col">Kit</th>
            {table.columns.map((vehicle) => (
              <th key={vehicle?.id ?? "unknown"} scope="col">
                <a href={cellAddress({ ...narrowing, vehicle: vehicle?.id ?? "unknown" })}>{vehicle ? modelName(vehicle) : "Vehicle not known"}</a>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row) => (
            <tr key={rowName(row)}>
              <th scope="row">
                <a href={cellAddress({ ...narrowing, kit: row.kit.code, revision: row.revision?.revision })}>{rowName(row)}</a>
                <div className="small soft">{row.kit.name}</div>
                <div className="small soft">
                  {claimsInWords(row.total.claims)}
                  {row.total.shipped > 0 ? ` on ${count(row.total.shipped)}` : ""}
                  {row.total.rate ? `, ${figure(row.total.rate.estimate)} per 1,000` : ""}
                </div>
              </th>
              {row.cells.map((cell) => (
                <MatrixCell key={cell.vehicle?.id ?? "unknown"} row={row} cell={cell} narrowing={narrowing} scale={{ end: highest * 1.25, overall }} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function isRanked({ figures }: Cell): boolean {
  return figures.rate !== null && figures.claims >= FEWEST_CLAIMS;
}

function MatrixCell({ row, cell, narrowing, scale }: { row: Row; cell: Cell; narrowing: Parameters; scale: { end: number; overall: number | undefined } }) {
  const { vehicle, isSold, figures, comparison } = cell;
  const href = cellAddress({ ...narrowing, kit: row.kit.code, revision: row.revision?.revision, vehicle: vehicle?.id ?? "unknown" });
  if (figures.shipped === 0 && figures.claims === 0 && figures.probable === 0) {
    if (!vehicle) return <td />;
    return (
      <td className={isSold ? `soft ${styles.idle}` : `soft ${styles.idle} ${styles.unsold}`}>
        {isSold ? <a href={href}>none shipped</a> : "not sold"}
      </td>
    );
  }
  const isHigh = isRanked(cell) && looksHigh(comparison);
  return (
    <td className={isHigh ? styles.hot : undefined}>
      <a href={href}>
        {isRanked(cell) && figures.rate ? (
          <>
            <b className={`num ${styles.rate}`}>{figure(figures.rate.estimate)}</b> <span className="num soft">{tightLimits(figures.rate)}</span>
            <IntervalMark interval={figures.rate} end={scale.end} isHigh={isHigh} {...(scale.overall === undefined ? {} : { line: scale.overall })} />
            <AttributionMix outcomes={figures.outcomes} />
            <div className="small">
              {claimsInWords(figures.claims)} on {count(figures.shipped)}
            </div>
          </>
        ) : (
          <>
            <div className="small">{claimsInWords(figures.claims)}</div>
            {figures.rate ? (
              <div className="small soft">
                {tightLimits(figures.rate)} per 1,000, on {count(figures.shipped)}
              </div>
            ) : figures.claims > 0 ? (
              <AttributionMix outcomes={figures.outcomes} />
            ) : null}
          </>
        )}
        {isHigh && comparison ? <div className="small">{figure(comparison.ratio.estimate)} times expected</div> : null}
        {figures.probable > 0 ? <div className={`small ${styles.probable}`}>and {weight(figures.probable)} probable</div> : null}
      </a>
    </td>
  );
}
