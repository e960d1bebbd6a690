import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { inZone } from "@/app/queue/times";
import { requireStaff } from "@/lib/access/staff";
import { SIGNAL_STATE_NAMES, SIGNAL_STATES } from "@/lib/domain/reporting/signals-acts";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readSignalsFilter, type SignalsFilter } from "@/lib/inputs/signal";
import { loadSignals, type SignalsSheet } from "@/lib/operations/load-signals";
import { signalsAddress, signalsFileAddress } from "../addresses";
import { count } from "../figures-in-words";
import reports from "../reports.module.css";
import { askToLookHere } from "./actions";
import { ratioScale } from "./ratio-mark";
import { SignalItem } from "./signal-item";
import { SignalTable } from "./signal-table";
import styles from "./signals.module.css";
import { emptyInWords, headline, looksInWords } from "./words";

export const metadata: Metadata = { title: "Signals" };

export default async function SignalsPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const filter = readSignalsFilter(query);
  const actor = await requireStaff(signalsAddress({ ...filter }));
  const sheet = await loadSignals(actor, filter);
  if (!sheet.ok) forbidden();
  return <Signals sheet={sheet} filter={filter} said={firstValues(query).said} />;
}

function Signals({ sheet, filter, said }: { sheet: SignalsSheet; filter: SignalsFilter; said: string | undefined }) {
  const { signals, looks, timeZone, mayDecide } = sheet;
  const { time } = inZone(timeZone);
  const scale = ratioScale(signals.map(({ figures }) => figures.ratio));
  return (
    <>
      <h1>{headline(sheet)}</h1>
      {said === "asked" ? (
        <p role="status" className="no-print">
          A look was asked for. Load this page again in a moment.
        </p>
      ) : null}
      {looks.newest ? (
        <TitleBlock
          facts={[
            { name: "Looked at", value: time(looks.newest.lookedAt) },
            { name: "New ones raised last", value: looks.newestFormal ? time(looks.newestFormal.lookedAt) : "never" },
            { name: "Shipped", value: count(looks.newest.unitsShipped) },
            { name: "Claims, without normal ones", value: count(looks.newest.claims) },
            { name: "Parts of the sales by causes looked into", value: count(looks.newest.lookedInto) },
          ]}
        />
      ) : null}
      <States sheet={sheet} filter={filter} />
      {signals.length > 0 ? (
        <ol className={styles.list}>
          {signals.map((signal) => (
            <SignalItem key={signal.id} signal={signal} sheet={sheet} scale={scale} />
          ))}
        </ol>
      ) : (
        <p className={reports.part}>{filter.state === undefined ? emptyInWords(sheet) : `No signal is ${filter.state === "waiting" ? "" : "marked "}${SIGNAL_STATE_NAMES[filter.state]}.`}</p>
      )}
      {signals.length > 0 ? <SignalTable sheet={sheet} /> : null}
      <div className={`note small ${reports.part}`}>
        <p>
          A signal is a kit, revision, batch or kit on a vehicle that brings one confirmed cause more often than everything else sold leads to expect of units of the same age in the same season, on such vehicles and in such kits. Claims
          found to be normal are left out. The surest comes first. “Times the expected” is drawn towards 1 where little was seen (empirical Bayes, DuMouchel’s two gammas); with 90 % certainty the true figure lies in its interval.
        </p>
        <p>{looksInWords(sheet)}</p>
      </div>
      <div className="acts no-print">
        {mayDecide ? (
          <form action={askToLookHere}>
            <button type="submit" className="button tight plain">
              Look now
            </button>
          </form>
        ) : null}
        {signals.length > 0 ? (
          <>
            <a className="button tight plain" href={signalsFileAddress({ ...filter })}>
              This list as CSV
            </a>
            <a className="button tight plain" href={signalsFileAddress({ ...filter, format: "xlsx" })}>
              as a workbook
            </a>
          </>
        ) : null}
      </div>
    </>
  );
}

/** The list narrowed to one state; the others stay one step away. */
function States({ sheet: { counts }, filter }: { sheet: SignalsSheet; filter: SignalsFilter }) {
  const all = Object.values(counts).reduce((sum, signals) => sum + signals, 0);
  if (all === 0) return null;
  const states = SIGNAL_STATES.filter((state) => (counts[state] ?? 0) > 0 || filter.state === state);
  return (
    <nav aria-label="State" className="no-print">
      <ul className={`${styles.states} letter`}>
        <li>
          <a href={signalsAddress({})} {...(filter.state === undefined ? { "aria-current": "page" as const } : {})}>
            all {count(all)}
          </a>
        </li>
        {states.map((state) => (
          <li key={state}>
            <a href={signalsAddress({ state })} {...(filter.state === state ? { "aria-current": "page" as const } : {})}>
              {SIGNAL_STATE_NAMES[state]} {count(counts[state] ?? 0)}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
