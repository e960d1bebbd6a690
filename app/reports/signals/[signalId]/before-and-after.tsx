import type { Effect } from "@/lib/domain/reporting/signals-effect";
import { count, figure } from "../../figures-in-words";
import reports from "../../reports.module.css";
import { RatioMark, ratioScale } from "../ratio-mark";

/** The comparison behind the sentence: what was shipped with the change against what was shipped without it. */
export function BeforeAndAfter({ effect }: { effect: Effect }) {
  const sides = [
    { name: "shipped before", side: effect.before },
    { name: "shipped since", side: effect.after },
  ];
  return (
    <>
      {effect.kind === "compared" ? <RatioMark {...effect.ratio} scale={ratioScale([effect.ratio])} /> : null}
      <section className="table-region" aria-label="Before and after">
        <table className={reports.list}>
          <thead>
            <tr>
              <th scope="col">What was</th>
              <th scope="col" className="num">
                Units
              </th>
              <th scope="col" className="num">
                Unit-months in service
              </th>
              <th scope="col" className="num">
                Claims
              </th>
              <th scope="col" className="num">
                Usual by now
              </th>
            </tr>
          </thead>
          <tbody>
            {sides.map(({ name, side }) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className="num">{count(side.unitsShipped)}</td>
                <td className="num">{count(side.unitMonthsInService)}</td>
                <td className="num">{count(side.claims)}</td>
                <td className="num">{figure(side.usual)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className="small soft">
        Both sides are divided by what units of their age, in the seasons they have seen, usually bring by now, with verdicts still to come taken off; what was shipped lately is not flattered. The rate before was picked because it was high,
        so a little of any fall is chance. The interval is the exact one of two counts.
      </p>
    </>
  );
}
