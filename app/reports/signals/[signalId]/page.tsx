import type { Metadata } from "next";
import { forbidden, notFound } from "next/navigation";
import { z } from "zod";
import { TitleBlock } from "@/app/_components/title-block";
import { inZone } from "@/app/queue/times";
import { requireStaff } from "@/lib/access/staff";
import { monthInWords } from "@/lib/domain/reporting/month";
import { scopeInWords } from "@/lib/domain/reporting/signals-sentence";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { loadSignal, type SignalSheet } from "@/lib/operations/load-signals";
import { signalAddress, signalsAddress } from "../../addresses";
import { claimsInWords, count, figure } from "../../figures-in-words";
import reports from "../../reports.module.css";
import { RatioMark, ratioScale } from "../ratio-mark";
import { Standing } from "../signal-item";
import styles from "../signals.module.css";
import { addressesOf, decisionInWords, rateInWords, sentenceOf, surenessInWords } from "../words";
import { BeforeAndAfter } from "./before-and-after";
import { DecideForm } from "./decide-form";

export const metadata: Metadata = { title: "Signal" };

export default async function SignalPage({ params, searchParams }: { params: Promise<{ signalId: string }>; searchParams: Promise<QueryParameters> }) {
  const { signalId } = await params;
  const actor = await requireStaff(signalAddress(signalId));
  if (!z.guid().safeParse(signalId).success) notFound();
  const sheet = await loadSignal(actor, signalId);
  if (sheet.ok) return <SignalFound sheet={sheet} said={firstValues(await searchParams).said} />;
  if (sheet.reason === "not-allowed") forbidden();
  notFound();
}

function SignalFound({ sheet, said }: { sheet: SignalSheet; said: string | undefined }) {
  const { signal, catalogue, timeZone, mayDecide } = sheet;
  const { figures, firstFigures, scope, decisions, version, watch, effect } = signal;
  const { time } = inZone(timeZone);
  const address = addressesOf(signal, sheet);
  const rate = rateInWords(figures);
  const also = figures.alsoSeenIn.map((part) => scopeInWords(part, catalogue));
  return (
    <>
      <p className="small letter soft no-print">
        <a href={signalsAddress({})}>Signals</a> / {scopeInWords({ ...scope, shippedFrom: null }, catalogue)}
      </p>
      <h1>{sentenceOf(signal, sheet)}</h1>
      {said === "decided" ? (
        <p role="status" className="no-print">
          It is marked.
        </p>
      ) : null}
      <div className={styles.narrow}>
        <RatioMark {...figures.ratio} scale={ratioScale([figures.ratio])} />
      </div>
      <p>
        {surenessInWords(figures.falseDiscoveryRate)}. {rate ? `${rate.replace(/^./, (first) => first.toUpperCase())}.` : ""}
        {watch?.likelyStart ? ` By its cumulative sum, what was shipped from about ${monthInWords(watch.likelyStart)} on brings more.` : ""}
      </p>
      <TitleBlock
        facts={[
          { name: "Claims", value: <a href={address.claims}>{count(figures.claims)}</a> },
          { name: "Expected", value: figure(figures.expected) },
          { name: "Shipped", value: `${count(figures.unitsShipped)} since ${monthInWords(figures.since)}` },
          { name: "Unit-months in service, estimated", value: count(figures.unitMonthsInService) },
          { name: "First seen", value: `${time(signal.firstSeenAt)}, ${claimsInWords(firstFigures.claims)}, ${figure(firstFigures.ratio.ratio)} times` },
          { name: "Stood out last", value: `${time(signal.seenAt)}, at ${signal.looks === 1 ? "one formal look" : `${signal.looks} formal looks`}` },
        ]}
      />
      <p className="acts no-print">
        <a className="button tight" href={address.claims}>
          See the {claimsInWords(figures.claims)}
        </a>
        <a className="button tight plain" href={address.cell}>
          All its causes
        </a>
      </p>
      {also.length > 0 ? <p className="small">Stands out too, but only because of this: {also.join("; ")}.</p> : null}
      <div className={styles.pair}>
        {decisions.length > 0 || !signal.standsOut ? (
          <section aria-labelledby="done">
            <h2 id="done">{decisions.length === 0 ? "It faded before anybody decided" : "What was done"}</h2>
            <Standing signal={signal} timeZone={timeZone} />
            {effect ? <BeforeAndAfter effect={effect} /> : null}
            {decisions.length > 0 ? (
              <>
                <h3>History</h3>
                <ol className={styles.history}>
                  {decisions.map((decision) => (
                    <li key={decision.number}>
                      <span className="small soft">{time(decision.at)}</span> {decisionInWords(decision)}
                      <p>{decision.note}</p>
                    </li>
                  ))}
                </ol>
              </>
            ) : null}
          </section>
        ) : null}
        {mayDecide ? (
          <section aria-labelledby="mark" className="no-print">
            <h2 id="mark">{decisions.length > 0 ? "Mark it anew" : signal.standsOut ? "It waits for a decision: mark what was done" : "Mark what was done"}</h2>
            <DecideForm signalId={signal.id} version={version} revisions={catalogue.kits.find(({ id }) => id === scope.kitId)?.revisions ?? []} />
          </section>
        ) : null}
      </div>
      <p className={`note small ${reports.part}`}>
        Counted are claims with a confirmed verdict. Expected is what everything else sold leads to expect of units of this age in these seasons, with verdicts still to come taken off; it speaks of what was shipped, of which some may still lie
        on a shelf. {scope.vehicleId === null ? "" : "Shipments whose vehicle is not known are shared out to vehicles as the known ones of the revision are, so shipped need not be a whole number. "}
      </p>
    </>
  );
}
