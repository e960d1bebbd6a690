import type { RevisionLine } from "@/lib/domain/reporting/causes-of-a-selection";
import { cellAddress, claimsAddress, type Parameters } from "../../addresses";
import { costsInWords, count, tightRate } from "../../figures-in-words";
import styles from "../../reports.module.css";

/** Whether the latest revision is better than the one before it: side by side, with what was changed. */
export function Revisions({ lines, selection, nameOf }: { lines: readonly RevisionLine[]; selection: Parameters; nameOf: (cause: string) => string }) {
  return (
    <section className="table-region" aria-label="By revision">
      <table className={styles.list}>
        <thead>
          <tr>
            <th scope="col">Revision</th>
            <th scope="col">Introduced</th>
            <th scope="col">Change</th>
            <th scope="col" className="num">
              Shipped
            </th>
            <th scope="col" className="num">
              Claims
            </th>
            <th scope="col" className="num">
              per 1,000 shipped (90 %)
            </th>
            <th scope="col" className="num">
              per 1,000 unit-months (90 %)
            </th>
            <th scope="col">Most frequent cause</th>
            <th scope="col" className="num">
              Cost
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map(({ kit, revision, figures: { shipped, claims, rate, serviceRate, costs }, leading }) => {
            const ofRevision = { ...selection, kit: kit.code, revision: revision.revision };
            return (
              <tr key={revision.id}>
                <th scope="row" className={styles.nowrap}>
                  <a href={cellAddress(ofRevision)}>
                    {kit.code} rev {revision.revision}
                  </a>
                </th>
                <td className={styles.nowrap}>{revision.introducedOn}</td>
                <td className={styles.wordy}>{revision.change}</td>
                <td className="num">{count(shipped)}</td>
                <td className="num">{claims > 0 ? <a href={claimsAddress({ ...ofRevision, with: undefined })}>{count(claims)}</a> : 0}</td>
                <td className="num">{tightRate(rate, claims)}</td>
                <td className="num">{tightRate(serviceRate, claims)}</td>
                <td>{leading ? <a href={claimsAddress({ ...ofRevision, with: undefined, cause: leading.cause })}>{`${nameOf(leading.cause)}, ${leading.claims}`}</a> : "none decided"}</td>
                <td className="num">{costsInWords(costs, "")}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
