import type { ShownCalibration } from "@/lib/domain/learning/shown-calibration";
import { FiguresTable } from "./figures-table";
import css from "./learning.module.css";
import { MonthsPlot } from "./months-plot";
import { CurveKey, ReliabilityDiagram } from "./reliability-diagram";
import { ReliabilityTable } from "./reliability-table";
import { score } from "./words";

const percent = (share: number) => `${Math.round(100 * share)} %`;

/** How the probabilities shown when a claim was filed have done against the verdict that came later. */
export function ShownSection({ shown: { months, inForce }, edition }: { shown: ShownCalibration; edition: number }) {
  const verdicts = months.reduce((sum, month) => sum + month.verdicts, 0);
  if (verdicts === 0)
    return (
      <section className="sheet" aria-labelledby="shown">
        <h2 id="shown">Nothing that was shown has met its verdict yet</h2>
        <p>As soon as claims are decided whose first ranking is kept, it stands here how sure their leader was shown to be and how often it was then there.</p>
      </section>
    );
  const mean = (of: (month: (typeof months)[number]) => number) => months.reduce((sum, month) => sum + month.verdicts * of(month), 0) / verdicts;
  const [said, was] = [mean(({ shownForLeader }) => shownForLeader), mean(({ leaderWasThere }) => leaderWasThere.estimate)];
  const finding = `The cause that led when the claim was filed was shown with ${percent(said)} on the average, and was there in ${percent(was)}`;
  const curves = inForce ? [{ name: `Edition ${edition}`, bins: inForce.bins, mark: "filled" as const }] : [];
  const ofCauses = inForce ? `Edition ${edition}, every cause: what was said is ${(100 * inForce.expectedCalibrationError).toFixed(1)} percentage points off on the average` : "";
  return (
    <section className="sheet" aria-labelledby="shown">
      <h2 id="shown">{finding}</h2>
      <p className={css.reading}>
        By month of filing: what was shown at first contact against the verdict that came later, {verdicts} verdicts. Claims not decided yet are left out, so that the newest months hold the quick ones; claims whose first ranking is not kept
        cannot be in it.
      </p>
      <figure className={css.figure}>
        <MonthsPlot months={months} label={finding} />
        <figcaption>
          <ul className={css.key}>
            <li>
              <svg className={css.swatch} aria-hidden="true" focusable="false">
                <rect className={css.hollow} x="4" y="4" width="8" height="8" />
              </svg>
              probability shown for the leader
            </li>
            <li>
              <svg className={css.swatch} aria-hidden="true" focusable="false">
                <circle className={css.filled} cx="8" cy="8" r="4.5" />
              </svg>
              share in which it was there, with its 95 % Wilson interval
            </li>
          </ul>
        </figcaption>
      </figure>
      <FiguresTable label="Shown at first contact, by month">
        <thead>
          <tr>
            <th scope="col">Filed in</th>
            <th scope="col" className="num">
              Edition
            </th>
            <th scope="col" className="num">
              Verdicts
            </th>
            <th scope="col" className="num">
              Leader shown with
            </th>
            <th scope="col" className="num">
              Was there (interval)
            </th>
            <th scope="col" className="num">
              Was the primary cause
            </th>
            <th scope="col" className="num">
              Brier
            </th>
            <th scope="col" className="num">
              Log loss
            </th>
          </tr>
        </thead>
        <tbody>
          {months.map(({ month, editions, verdicts: count, shownForLeader, leaderWasThere, led, brier, logLoss }) => (
            <tr key={month}>
              <th scope="row" className={css.narrow}>
                {month}
              </th>
              <td className="num">{editions.join(", ")}</td>
              <td className="num">{count}</td>
              <td className="num">{percent(shownForLeader)}</td>
              <td className="num">{`${percent(leaderWasThere.estimate)} (${percent(leaderWasThere.lower)} to ${percent(leaderWasThere.upper)})`}</td>
              <td className="num">{percent(led)}</td>
              <td className="num">{score(brier)}</td>
              <td className="num">{score(logLoss)}</td>
            </tr>
          ))}
        </tbody>
      </FiguresTable>
      {inForce ? (
        <>
          <h3>{ofCauses}</h3>
          <div className={css.pair}>
            <figure className={css.figure}>
              <ReliabilityDiagram curves={curves} label={ofCauses} />
              <figcaption>
                <CurveKey curves={curves} />
              </figcaption>
            </figure>
            <ReliabilityTable curves={curves} caption={`What edition ${edition} showed at first contact, every cause of ${inForce.verdicts} claims`} />
          </div>
        </>
      ) : null}
    </section>
  );
}
