import type { ReactNode } from "react";
import { percent } from "@/app/_components/scale";
import { ATTRIBUTION_WORDS } from "@/app/queue/words";
import type { Attribution } from "@/lib/domain/diagnosis/attributions";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import type { Comparison, DeskFigure } from "@/lib/domain/reporting/desk-quality";
import type { Agreement } from "@/lib/domain/statistics/cohen-kappa";
import type { Parameters } from "../addresses";
import { count } from "../figures-in-words";
import styles from "../reports.module.css";
import { deskClaimsAddress } from "./desk-addresses";

/** So many pairs at least, for a kappa to say something (judgement). */
const FEWEST_PAIRS = 10;

/** Kappa with its standard error, or in words why there is none. */
export function kappaInWords(agreement: Agreement | null): string {
  if (!agreement) return "nothing to compare";
  if (agreement.kappa === null || agreement.standardError === null) return "undefined: both always say the same one thing, so chance alone would agree as well";
  return `${agreement.kappa.toFixed(2)}, standard error ${agreement.standardError.toFixed(2)}`;
}

/** How far two agree over the same claims, plainly and beyond chance, and where they part. */
export function AgreementTable({ comparison, first, second, figures, filter, children }: { comparison: Comparison; first: string; second: string; figures: { all: DeskFigure; causes: DeskFigure; attributions: DeskFigure }; filter: Parameters; children: ReactNode }) {
  const { pairs, causes, attributions, cells } = comparison;
  if (pairs === 0) return <p>{children}</p>;
  const known = ATTRIBUTIONS.filter((attribution) => cells.some((cell) => cell.first === attribution || cell.second === attribution));
  const claimsIn = (row: Attribution, column: Attribution) => cells.find((cell) => cell.first === row && cell.second === column)?.claims ?? 0;
  const line = (over: string, agreement: Agreement | null, figure: DeskFigure) => (
    <tr>
      <th scope="row">{over}</th>
      <td className="num">
        <a href={deskClaimsAddress(figure, filter)}>{agreement ? percent(agreement.observedAgreement) : ""}</a>
      </td>
      <td className="num">{agreement ? percent(agreement.expectedAgreement) : ""}</td>
      <td className={styles.wordy}>{kappaInWords(agreement)}</td>
    </tr>
  );
  return (
    <>
      <p>{children}</p>
      <div className="table-region">
        <table className={styles.list}>
          <thead>
            <tr>
              <th scope="col">
                Over <a href={deskClaimsAddress(figures.all, filter)}>{count(pairs)} claims</a>
              </th>
              <th scope="col" className="num">
                Agree
              </th>
              <th scope="col" className="num">
                By chance
              </th>
              <th scope="col">Kappa, agreement beyond chance</th>
            </tr>
          </thead>
          <tbody>
            {line("what it lies with", attributions, figures.attributions)}
            {line("the primary cause", causes, figures.causes)}
          </tbody>
        </table>
      </div>
      <p className="small soft">
        Kappa is 1 where they always agree and 0 where they agree no more than chance. Where nearly everything falls into one class it is low however well they agree: read it beside the plain share.
        {pairs < FEWEST_PAIRS ? " So few pairs tell little." : ""}
      </p>
      <h3>Where they part</h3>
      <div className="table-region">
        <table className={styles.list}>
          <caption className="small">
            Claims; down: {first}, across: {second}
          </caption>
          <thead>
            <tr>
              <td />
              {known.map((attribution) => (
                <th key={attribution} scope="col" className="num">
                  {ATTRIBUTION_WORDS[attribution]}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {known.map((row) => (
              <tr key={row}>
                <th scope="row">{ATTRIBUTION_WORDS[row]}</th>
                {known.map((column) => (
                  <td key={column} className="num">
                    {claimsIn(row, column) > 0 ? <a href={deskClaimsAddress(figures.all, { ...filter, first: row, second: column })}>{row === column ? <strong>{count(claimsIn(row, column))}</strong> : count(claimsIn(row, column))}</a> : <span className="soft">0</span>}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}
