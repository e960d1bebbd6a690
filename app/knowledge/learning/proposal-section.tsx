import Link from "next/link";
import { PRIOR_VERDICTS } from "@/lib/domain/learning/base-figures";
import { MOST_ODDS_FACTOR } from "@/lib/domain/learning/bounded-move";
import { PRIOR_LOOKS } from "@/lib/domain/learning/observer-figures";
import type { LearnedProposal } from "@/lib/operations/load-learning";
import { figure } from "../words";
import { CalibrationTable, DifferencesTable } from "./backtest-tables";
import { FiguresTable } from "./figures-table";
import css from "./learning.module.css";
import { CurveKey, type Curve, ReliabilityDiagram } from "./reliability-diagram";
import { ReliabilityTable } from "./reliability-table";
import { outcomeOf, score, VIEW_NAMES } from "./words";

/** The newest learned edition: its backtest, what it moves and why, and the way to decide about it. */
export function ProposalSection({ proposal, time }: { proposal: LearnedProposal; time: (at: Date) => string }) {
  const { edition, state, against, report, moved, movedInAll, experience, experienceInAll } = proposal;
  const [first, ...others] = report.views;
  const names = [`Edition ${against}`, `Edition ${edition.number}`] as const;
  const curves: Curve[] = first
    ? [
        { name: names[0], bins: first.before.bins, mark: "hollow" },
        { name: names[1], bins: first.after.bins, mark: "filled" },
      ]
    : [];
  const off = (error: number) => `${(100 * error).toFixed(1)} percentage points`;
  const ofCurves = first ? `At first contact, what edition ${edition.number} says is ${off(first.after.expectedCalibrationError)} off on the average, and what edition ${against} says ${off(first.before.expectedCalibrationError)}` : "";
  return (
    <>
      <section className="sheet" aria-labelledby="backtest">
        <h2 id="backtest">{first ? `Log loss on ${report.scored} later verdicts: ${score(first.after.logLoss)} with edition ${edition.number}, ${score(first.before.logLoss)} with edition ${against}` : `Edition ${edition.number} was not scored`}</h2>
        <p className={css.reading}>
          Proposed {time(edition.createdAt)}
          {edition.proposedBy ? `, asked for by ${edition.proposedBy.name}` : ""}. Learned from {report.learnedFrom} verdicts confirmed before {report.splitAt.slice(0, 10)}; both editions were then given the findings of the {report.scored} claims
          decided from that day on, of which neither has learned. Verdicts name the true cause only as far as staff found it.
        </p>
        {first ? (
          <>
            <DifferencesTable result={first} names={names} />
            <h3>{ofCurves}</h3>
            <div className={css.pair}>
              <figure className={css.figure}>
                <ReliabilityDiagram curves={curves} label={ofCurves} />
                <figcaption>
                  <CurveKey curves={curves} />
                </figcaption>
              </figure>
              <ReliabilityTable curves={curves} caption="The same in numbers: every cause of every claim is one forecast. Those of one claim hang together, so that the intervals are a little narrow" />
            </div>
            <CalibrationTable result={first} names={names} />
          </>
        ) : null}
        {others.map((result) => (
          <details key={result.view}>
            <summary>{`${VIEW_NAMES[result.view]}, it ${outcomeOf(result)}`}</summary>
            <DifferencesTable result={result} names={names} />
          </details>
        ))}
        <p className="acts no-print">
          <Link className="button tight" href={`/knowledge/${edition.number}`}>
            {state === "proposed" ? `See what edition ${edition.number} changes, and decide` : `Edition ${edition.number} as a whole`}
          </Link>
        </p>
      </section>
      <section className="sheet" aria-labelledby="moved">
        <h2 id="moved">{moved[0] ? `${movedInAll} figures move, the farthest: ${moved[0].name}` : "No figure moves"}</h2>
        <p className={css.reading}>{`One proposal moves no figure by more than ${MOST_ODDS_FACTOR} times its odds. Few verdicts move little: each figure counts for ${PRIOR_VERDICTS} verdicts, or ${PRIOR_LOOKS} looks, of its own.`}{movedInAll > moved.length ? ` These ${moved.length} move the farthest; all of them stand in the edition.` : ""}</p>
        <FiguresTable label="Figures that move the farthest">
          <thead>
            <tr>
              <th scope="col">Figure</th>
              <th scope="col" className="num">
                Before
              </th>
              <th scope="col" className="num">
                After
              </th>
              <th scope="col" className="num">
                Odds
              </th>
              <th scope="col">Why</th>
            </tr>
          </thead>
          <tbody>
            {moved.map(({ name, before, after, factor, why }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className="num">{figure(before)}</td>
                <td className="num">{figure(after)}</td>
                <td className="num">{`× ${factor.toFixed(2)}`}</td>
                <td className={css.why}>{why}</td>
              </tr>
            ))}
          </tbody>
        </FiguresTable>
      </section>
      {experience[0] ? (
        <section className="sheet" aria-labelledby="experience">
          <h2 id="experience">{`${experience[0].kit}${experience[0].vehicle ? ` on the ${experience[0].vehicle}` : ""} differs most: “${experience[0].cause}” has ${experience[0].oddsRatio.toFixed(2)} times its usual odds`}</h2>
          <p className={css.reading}>
            Stated only where a kit, or a kit on one vehicle, has at least 1.5 times or at most two thirds of the usual odds, with a certainty of 90 %. What the circumstances of its claims say already is taken out.
            {experienceInAll > experience.length ? ` Of ${experienceInAll} rows these differ most; all of them stand in the edition.` : ""}
          </p>
          <FiguresTable label="Experience with kits">
            <thead>
              <tr>
                <th scope="col">Kit and vehicle</th>
                <th scope="col">Cause</th>
                <th scope="col" className="num">
                  Odds
                </th>
                <th scope="col">Why</th>
              </tr>
            </thead>
            <tbody>
              {experience.map(({ kit, vehicle, cause, oddsRatio, why }) => (
                <tr key={`${kit} ${vehicle} ${cause}`}>
                  <th scope="row">{`${kit}, ${vehicle ?? "any vehicle"}`}</th>
                  <td>{cause}</td>
                  <td className="num">{`× ${oddsRatio.toFixed(2)}`}</td>
                  <td className={css.why}>{why}</td>
                </tr>
              ))}
            </tbody>
          </FiguresTable>
        </section>
      ) : null}
    </>
  );
}
