import { SIGNAL_STATE_NAMES, signalState } from "@/lib/domain/reporting/signals-acts";
import { monthInWords } from "@/lib/domain/reporting/month";
import { scopeInWords } from "@/lib/domain/reporting/signals-sentence";
import type { SignalsSheet } from "@/lib/operations/load-signals";
import { signalAddress } from "../addresses";
import { count, figure } from "../figures-in-words";
import reports from "../reports.module.css";
import { addressesOf } from "./words";

/** The marks of the list as figures. */
export function SignalTable({ sheet }: { sheet: SignalsSheet }) {
  const { signals, catalogue, causes } = sheet;
  return (
    <details className={`${reports.part} ${reports.fold}`}>
      <summary>
        <h2>The same as a table</h2>
      </summary>
      <section className="table-region" aria-label="Signals">
        <table className={reports.list}>
          <thead>
            <tr>
              <th scope="col">About</th>
              <th scope="col">Cause</th>
              <th scope="col" className="num">
                Claims
              </th>
              <th scope="col" className="num">
                Expected
              </th>
              <th scope="col" className="num">
                Times the expected (90 %)
              </th>
              <th scope="col" className="num">
                Shipped
              </th>
              <th scope="col">Since</th>
              <th scope="col">State</th>
            </tr>
          </thead>
          <tbody>
            {signals.map((signal) => {
              const { id, scope, cause, figures, standsOut } = signal;
              return (
                <tr key={id}>
                  <th scope="row" className={reports.wordy}>
                    <a href={signalAddress(id)}>{scopeInWords({ ...scope, shippedFrom: null }, catalogue)}</a>
                  </th>
                  <td className={reports.wordy}>{causes.find(({ code }) => code === cause)?.name ?? cause}</td>
                  <td className="num">
                    <a href={addressesOf(signal, sheet).claims}>{count(figures.claims)}</a>
                  </td>
                  <td className="num">{figure(figures.expected)}</td>
                  <td className="num">
                    {figure(figures.ratio.ratio)} ({figure(figures.ratio.lower)}–{figure(figures.ratio.upper)})
                  </td>
                  <td className="num">{count(figures.unitsShipped)}</td>
                  <td className={reports.nowrap}>{monthInWords(figures.since)}</td>
                  <td>
                    {SIGNAL_STATE_NAMES[signalState(signal)]}
                    {!standsOut && signal.act !== null ? ", faded" : ""}
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </section>
    </details>
  );
}
