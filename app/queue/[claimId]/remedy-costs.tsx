import { percent } from "@/app/_components/scale";
import { formatEstimate } from "@/lib/domain/claims/money";
import type { RemedyCost } from "@/lib/domain/claims/remedy-costs";
import type { Remedy } from "@/lib/domain/claims/remedies";
import { REMEDY_WORDS } from "../words";
import css from "./verdict.module.css";

interface Props {
  costs: readonly RemedyCost[];
  proposed: Remedy | null;
  currency: string;
  /** What costs more waits for a second person. */
  secondPersonAbove: number;
}

/** What each remedy is expected to cost: itself as a filled length, what may follow as a hatched one. */
export function RemedyCosts({ costs, proposed, currency, secondPersonAbove }: Props) {
  const most = Math.max(1, ...costs.map(({ expected }) => expected));
  if (costs.length === 0) return null;
  return (
    <section aria-labelledby="costs-heading" className={css.costs}>
      <h2 id="costs-heading">{proposed ? `The ranking speaks for: ${REMEDY_WORDS[proposed]}` : "What each remedy is expected to cost"}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">Remedy</th>
            <th scope="col" className={css.length}>
              <span className="visually-hidden">Length</span>
            </th>
            <th scope="col" className="num">
              Itself
            </th>
            <th scope="col" className="num">
              Fails
            </th>
            <th scope="col" className="num">
              In all
            </th>
          </tr>
        </thead>
        <tbody>
          {costs.map(({ remedy, itself, thenExpected, chanceItFails, expected }) => (
            <tr key={remedy} {...(remedy === proposed ? { className: css.proposed } : {})}>
              <th scope="row">
                {REMEDY_WORDS[remedy]}
                {remedy === proposed ? <span className="visually-hidden">, proposed</span> : null}
              </th>
              <td className={css.length}>
                <svg aria-hidden="true" focusable="false">
                  <rect className={css.itself} x="0.5" y="1.5" width={`${(itself / most) * 98}%`} height="11" />
                  <rect className={css.then} x={`${(itself / most) * 98}%`} y="1.5" width={`${(thenExpected / most) * 98}%`} height="11" />
                </svg>
              </td>
              <td className="num">{formatEstimate(itself, currency)}</td>
              <td className="num">{percent(chanceItFails)}</td>
              <td className="num">
                <strong>{formatEstimate(expected, currency)}</strong>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">Filled: the remedy itself, by the settings. Open: what is expected to follow where it does not put it right. Estimates to weigh, not sums to book; cost alone is no ground to refuse. What costs more than {formatEstimate(secondPersonAbove, currency)} waits for a second person before anything goes out.</p>
    </section>
  );
}
