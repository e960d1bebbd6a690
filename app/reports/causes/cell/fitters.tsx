import { MOST_FITTERS, type SelectionBreakdown } from "@/lib/operations/load-causes-of-a-selection";
import { cellAddress, claimsAddress, fileAddress, type Parameters } from "../../addresses";
import { AttributionMix } from "../../attribution-mix";
import { count } from "../../figures-in-words";
import { fitterName } from "../../narrowing-in-words";
import { OutcomeCounts } from "../../outcome-counts";
import styles from "../../reports.module.css";

/** Who fitted the claimed units: counts and mix, since nobody knows what else they fitted. */
export function Fitters({ fitters, selection }: { fitters: SelectionBreakdown["fitters"]; selection: Parameters }) {
  const title = "By fitter: counts alone, no rates";
  return (
    <details className={`${styles.part} ${styles.fold}`}>
      <summary>
        <h2>{title}</h2>
      </summary>
      <p className="small soft">
        Only claimants tell who fitted their kit, so how many a fitter has fitted without trouble is not known: many claims may mean much work.
        {fitters.length === MOST_FITTERS ? ` The ${MOST_FITTERS} with the most claims are shown.` : ""}
      </p>
      <section className="table-region" aria-label={title}>
        <table className={styles.list}>
          <thead>
            <tr>
              <th scope="col">Fitter</th>
              <th scope="col" className="num">
                Claims
              </th>
              <th scope="col">Laid to</th>
              <th scope="col">the same as a strip</th>
            </tr>
          </thead>
          <tbody>
            {fitters.map(({ fitterId, name, place, claims, outcomes }) => (
              <tr key={fitterId ?? "not told"}>
                <th scope="row">{fitterId && name !== null ? <a href={cellAddress({ ...selection, fitter: fitterId })}>{fitterName({ name, place: place ?? "" })}</a> : "not told, or the owner"}</th>
                <td className="num">{fitterId ? <a href={claimsAddress({ ...selection, with: undefined, fitter: fitterId })}>{count(claims)}</a> : count(claims)}</td>
                <td>{fitterId ? <OutcomeCounts outcomes={outcomes} selection={{ ...selection, with: undefined, fitter: fitterId }} /> : null}</td>
                <td className={styles.wordy}>
                  <AttributionMix outcomes={outcomes} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className="acts no-print">
        <a className="button tight plain" href={fileAddress("causes/cell", { ...selection, table: "fitters" })}>
          This table as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/cell", { ...selection, table: "fitters", format: "xlsx" })}>
          as a workbook
        </a>
      </p>
    </details>
  );
}
