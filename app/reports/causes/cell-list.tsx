import { modelName } from "@/lib/domain/reporting/catalogue";
import type { CausesTable, Cell } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import { FEWEST_CLAIMS } from "@/lib/domain/reporting/figures";
import { cellAddress, claimsAddress, type Parameters } from "../addresses";
import { costsInWords, count, figure, tightLimits, tightRate } from "../figures-in-words";
import { IntervalMark } from "../interval-mark";
import { OutcomeCounts } from "../outcome-counts";
import styles from "../reports.module.css";
import { rowName } from "./finding";

/** Every figure of the matrix as a list, with how each cell compares with the rest: the most striking first. */
export function CellList({ table, narrowing, cause }: { table: CausesTable; narrowing: Parameters; cause: string | undefined }) {
  const cells = table.rows
    .flatMap((row) => row.cells.map((cell) => ({ row, cell })))
    .filter(({ cell: { figures } }) => figures.shipped > 0 || figures.claims > 0)
    .sort((a, b) => ranked(b.cell) - ranked(a.cell) || b.cell.figures.claims - a.cell.figures.claims);
  const end = Math.max(2, ...cells.map(({ cell }) => (isCompared(cell) ? (cell.comparison?.ratio.upper ?? 0) : 0)));
  return (
    <section className="table-region" aria-label="The same as a list">
      <table className={styles.list}>
        <thead>
          <tr>
            <th scope="col">Kit</th>
            <th scope="col">Vehicle</th>
            <th scope="col" className="num">
              Shipped
            </th>
            <th scope="col" className="num">
              Claims
            </th>
            <th scope="col" className="num">
              per 1,000 shipped
            </th>
            <th scope="col" className="num">
              per 1,000 unit-months
            </th>
            <th scope="col" className="num">
              expected
            </th>
            <th scope="col" colSpan={2}>
              Times expected (broken line: 1)
            </th>
            <th scope="col" className="num">
              Cost
            </th>
            <th scope="col">Laid to</th>
          </tr>
        </thead>
        <tbody>
          {cells.map(({ row, cell }) => {
            const selection = { ...narrowing, kit: row.kit.code, revision: row.revision?.revision, vehicle: cell.vehicle?.id ?? "unknown" };
            return (
              <tr key={`${rowName(row)} ${cell.vehicle?.id}`} className={cell.figures.claims < FEWEST_CLAIMS ? styles.tail : undefined}>
                <td className={styles.nowrap}>
                  <a href={cellAddress(selection)}>{rowName(row)}</a>
                </td>
                <td className={styles.wordy}>{cell.vehicle ? modelName(cell.vehicle) : "not known"}</td>
                <td className="num">
                  {count(cell.figures.shipped)}
                  {cell.figures.sharedOut > 0 ? <div className="small soft">{count(cell.figures.sharedOut)} shared out</div> : null}
                </td>
                <td className="num">
                  {cell.figures.claims > 0 ? <a href={claimsAddress({ ...selection, cause })}>{count(cell.figures.claims)}</a> : 0}
                </td>
                <td className="num">{tightRate(cell.figures.rate, cell.figures.claims)}</td>
                <td className="num">{tightRate(cell.figures.serviceRate, cell.figures.claims)}</td>
                <td className="num">{cell.comparison ? figure(cell.comparison.expected) : ""}</td>
                <ComparisonColumns cell={cell} end={end} />
                <td className="num">{costsInWords(cell.figures.costs, "")}</td>
                <td className={styles.counts}>
                  <OutcomeCounts outcomes={cell.figures.outcomes} selection={{ ...selection, cause }} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

function ComparisonColumns({ cell, end }: { cell: Cell; end: number }) {
  if (!cell.comparison || !isCompared(cell)) return <td colSpan={2} className="small soft">{cell.vehicle ? "too few claims to compare" : ""}</td>;
  return (
    <>
      <td className={`num ${styles.nowrap}`}>
        {figure(cell.comparison.ratio.estimate)} ({tightLimits(cell.comparison.ratio)})
      </td>
      <td>
        <IntervalMark interval={cell.comparison.ratio} end={end} line={1} isHigh={looksHigh(cell.comparison)} />
      </td>
    </>
  );
}

function isCompared({ figures, comparison }: Cell): boolean {
  return comparison !== null && figures.claims >= FEWEST_CLAIMS;
}

function ranked(cell: Cell): number {
  return isCompared(cell) ? (cell.comparison?.ratio.lower ?? -1) : -1;
}
