import { Balloon } from "@/app/_components/balloon";
import { percent } from "@/app/_components/scale";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { CauseLine } from "@/lib/domain/reporting/causes-of-a-selection";
import { FEWEST_CLAIMS } from "@/lib/domain/reporting/figures";
import { claimsAddress, type Parameters } from "../../addresses";
import { costsInWords, count, shareLimits, tightRate, weight } from "../../figures-in-words";
import { ShareMark } from "../../share-mark";
import styles from "../../reports.module.css";

/** A cause that no verdict names needs half a probable claim to have a line of its own. The file has them all. */
const WORTH_A_LINE = 0.5;

/**
 * Causes of the decided claims, the most frequent first, with how much they make up together. Probable causes of the
 * others stand in a column of their own and count in nothing else.
 *
 * @param selection what the claims behind a figure are narrowed by, without the cause
 */
export function Pareto({ lines, causes, selection }: { lines: readonly CauseLine[]; causes: readonly Cause[]; selection: Parameters }) {
  const shown = lines.filter(({ primary, contributing, probable }) => primary > 0 || contributing > 0 || probable >= WORTH_A_LINE);
  const end = Math.max(0.1, ...shown.map(({ share }) => share?.upper ?? 0));
  const hasProbable = shown.some(({ probable }) => probable > 0);
  return (
    <section className="table-region" aria-label="Causes">
      <table className={styles.list}>
        <thead>
          <tr>
            <th scope="col">Cause</th>
            <th scope="col" className="num">
              Primary
            </th>
            <th scope="col" className="num">
              Share of decided (90 %)
            </th>
            <th scope="col">0 to {Math.round(end * 100)} %</th>
            <th scope="col" className="num">
              with those above
            </th>
            <th scope="col" className="num">
              per 1,000 shipped (90 %)
            </th>
            <th scope="col" className="num">
              per 1,000 unit-months (90 %)
            </th>
            <th scope="col" className="num">
              Contributed to another
            </th>
            {hasProbable ? (
              <th scope="col" className={`num ${styles.probable}`}>
                Probable, not decided
              </th>
            ) : null}
            <th scope="col" className="num">
              Cost
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ cause, primary, share, cumulativeShare, rate, serviceRate, contributing, probable, costs }, index) => {
            const known = causes.find(({ code }) => code === cause);
            const claims = { ...selection, cause };
            return (
              // One printed page explains a kit: the long tail stays on the screen and in the file.
              <tr key={cause} className={primary < FEWEST_CLAIMS && index >= 3 ? styles.tail : undefined}>
                <th scope="row">
                  <span className={styles.cause}>
                    {known ? <Balloon part={known.part} /> : null}
                    <a href={claimsAddress(primary > 0 ? claims : { ...claims, outcome: undefined, role: contributing > 0 ? "contributing" : "probable" })}>
                      {cause} {known?.name}
                    </a>
                  </span>
                </th>
                <td className="num">{primary > 0 ? <a href={claimsAddress(claims)}>{count(primary)}</a> : 0}</td>
                <td className="num">{share ? `${percent(share.estimate)} (${shareLimits(share)})` : "none decided"}</td>
                <td>{share ? <ShareMark share={share} end={end} attribution={known?.attribution ?? "normal"} /> : null}</td>
                <td className="num">{cumulativeShare !== null && primary > 0 ? percent(cumulativeShare) : ""}</td>
                <td className="num">{tightRate(rate, primary)}</td>
                <td className="num">{tightRate(serviceRate, primary)}</td>
                <td className="num">{contributing > 0 ? <a href={claimsAddress({ ...claims, role: "contributing" })}>{count(contributing)}</a> : 0}</td>
                {hasProbable ? <td className={`num ${styles.probable}`}>{probable > 0 ? <a href={claimsAddress({ ...claims, outcome: undefined, role: "probable" })}>{weight(probable)}</a> : ""}</td> : null}
                <td className="num">{costsInWords(costs, "")}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
