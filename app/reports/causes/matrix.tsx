import { modelName } from "@/lib/domain/reporting/catalogue";
import type { CausesTable, Cell, Row } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import { FEWEST_CLAIMS } from "@/lib/domain/reporting/figures";
import { cellAddress, type Parameters } from "../addresses";
import { AttributionMix } from "../attribution-mix";
import { claimsInWords, count, figure, tightLimits } from "../figures-in-words";
import styles from "../reports.module.css";
import { rowName } from "./finding";

/** Kits down, vehicles across; each cell leads to its causes. */
export function Matrix({ table, period }: { table: CausesTable; period: Parameters }) {
  return (
    <section className="table-region" aria-label="Claims by kit and vehicle">
      <table className={styles.matrix}>
        <thead>
          <tr>
            <th scope="col">Kit</th>
            {table.columns.map((vehicle) => (
              <th key={vehicle?.id ?? "unknown"} scope="col">
                <a href={cellAddress({ ...period, vehicle: vehicle?.id ?? "unknown" })}>{vehicle ? modelName(vehicle) : "Vehicle not known"}</a>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row) => (
            <tr key={rowName(row)}>
              <th scope="row">
                <a href={cellAddress({ ...period, kit: row.kit.code, revision: row.revision?.revision })}>{rowName(row)}</a>
                <div className="small soft">{row.kit.name}</div>
                <div className="small soft">
                  {claimsInWords(row.total.claims)} on {count(row.total.shipped)}
                  {row.total.rate ? `, ${figure(row.total.rate.estimate)} per 1,000` : ""}
                </div>
              </th>
              {row.cells.map((cell) => (
                <MatrixCell key={cell.vehicle?.id ?? "unknown"} row={row} cell={cell} period={period} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function MatrixCell({ row, cell: { vehicle, isSold, figures, comparison }, period }: { row: Row; cell: Cell; period: Parameters }) {
  if (figures.shipped === 0 && figures.claims === 0) {
    if (!vehicle) return <td />;
    return <td className={isSold ? `soft ${styles.idle}` : `soft ${styles.idle} ${styles.unsold}`}>{isSold ? "none shipped" : "not sold"}</td>;
  }
  const isRanked = figures.rate !== null && figures.claims >= FEWEST_CLAIMS;
  return (
    <td className={isRanked && looksHigh(comparison) ? styles.hot : undefined}>
      <a href={cellAddress({ ...period, kit: row.kit.code, revision: row.revision?.revision, vehicle: vehicle?.id ?? "unknown" })}>
        {isRanked && figures.rate ? (
          <>
            <b className={`num ${styles.rate}`}>{figure(figures.rate.estimate)}</b>
            <div className="num soft">{tightLimits(figures.rate)}</div>
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
            ) : null}
          </>
        )}
        {isRanked && comparison && looksHigh(comparison) ? <div className="small">{figure(comparison.ratio.estimate)} times expected</div> : null}
      </a>
    </td>
  );
}
