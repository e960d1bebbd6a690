import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { percent } from "@/app/_components/scale";
import { requireStaff } from "@/lib/access/staff";
import { periodInWords } from "@/lib/domain/reporting/month";
import type { DeskFigure } from "@/lib/domain/reporting/desk-quality";
import type { WaitSummary } from "@/lib/domain/reporting/desk-waits";
import { type DeskFilter, deskFilterSchema } from "@/lib/inputs/desk-filter";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { type LoadedDeskQuality, loadDeskQuality } from "@/lib/operations/load-desk-quality";
import { claimsInWords, count, money, shareLimits } from "../figures-in-words";
import { IntervalMark } from "../interval-mark";
import { unknownInWords, usualPeriod } from "../read-address";
import { RefusedFilter } from "../refused-filter";
import styles from "../reports.module.css";
import { selectionName } from "../selection-name";
import { AgreementTable } from "./agreement";
import { deskAddress, deskClaimsAddress, deskFileAddress } from "./desk-addresses";
import { DeskFilterForm } from "./desk-filter-form";
import { hoursInWords, medianInWords, ninetiethInWords, workingHoursInWords } from "./desk-words";

export const metadata: Metadata = { title: "Quality of the desk" };

export default async function DeskQualityPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(deskAddress(firstValues(query)));
  const read = readFilter(deskFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const loaded = await loadDeskQuality(actor, read.filter);
  if (loaded.ok) return <Report filter={read.filter} loaded={loaded} />;
  if (loaded.reason === "not-allowed") forbidden();
  return <RefusedFilter errors={unknownInWords(loaded)} />;
}

function Report({ filter, loaded }: { filter: DeskFilter; loaded: LoadedDeskQuality }) {
  const { quality, catalogue } = loaded;
  const { counts } = quality;
  return (
    <>
      <p className="small letter soft">Quality of the desk</p>
      <h1>{headline(loaded, filter)}</h1>
      <DeskFilterForm catalogue={catalogue} given={filter} />
      <p>
        <a href={deskClaimsAddress("filed", filter)}>{claimsInWords(counts.filed)}</a> filed {periodInWords(filter)}, {selectionName(catalogue, filter)}. Times are counted from filing; a claim that still waits counts as having waited until now, one that ended without it until its end.
      </p>
      {counts.filed > 0 ? (
        <>
          <Waits filter={filter} loaded={loaded} />
          <Returns filter={filter} loaded={loaded} />
          <section className={styles.part}>
            <h2>How far staff and scoring agree</h2>
            <AgreementTable comparison={quality.withScoring} first="the verdict" second="the first cause of the ranking" figures={{ all: "compared", causes: "same-cause", attributions: "same-attribution" }} filter={{ ...filter }}>
              {quality.withScoring.pairs === 0
                ? "No claim of these was decided on a ranking."
                : "Each standing verdict beside the first cause of the ranking it was given on. The scoring does not tell whether the fitter or the kit is behind a cause: there it is held to what staff found. Staff saw the ranking before they judged, so this is no proof that either is right."}
            </AgreementTable>
          </section>
          <section className={styles.part}>
            <h2>How far two of staff agree, neither knowing what the other thinks</h2>
            <AgreementTable comparison={quality.betweenStaff} first="the verdict" second="the second opinion" figures={{ all: "opinions", causes: "opinions-same-cause", attributions: "opinions-same-attribution" }} filter={{ ...filter }}>
              {quality.betweenStaff.pairs === 0
                ? `No second opinion was given on these claims. ${loaded.secondOpinionShare} of a hundred decided claims are put to somebody else.`
                : `${loaded.secondOpinionShare} of a hundred decided claims, chosen by their number and by nobody, are put to another person, who sees findings and photos alone. Each second opinion is held against the verdict that stood when it was given; whoever decided had seen the ranking.`}
            </AgreementTable>
          </section>
          <Overrules filter={filter} loaded={loaded} />
          <p className={`note small ${styles.part}`}>Every interval holds 90 %: that of a share is Wilson&rsquo;s, that of a time comes from the log-log band about Kaplan and Meier&rsquo;s curve.</p>
          <p className="acts no-print">
            <a className="button tight plain" href={deskFileAddress("figures", filter)}>
              The figures as CSV
            </a>
            <a className="button tight plain" href={deskFileAddress("figures", { ...filter, format: "xlsx" })}>
              as a workbook
            </a>
            <a className="button tight plain" href={deskFileAddress("pairs", filter)}>
              Where they part as CSV
            </a>
            <a className="button tight plain" href={deskFileAddress("pairs", { ...filter, format: "xlsx" })}>
              as a workbook
            </a>
          </p>
        </>
      ) : null}
    </>
  );
}

function headline({ quality: { counts, firstAnswer, inTime } }: LoadedDeskQuality, filter: DeskFilter): string {
  if (counts.filed === 0) return `No claim was filed ${periodInWords(filter)}`;
  const { median } = firstAnswer.working;
  const first = median === null ? "Fewer than half have a first answer yet" : `Half of the claims had a first answer within ${workingHoursInWords(median).replace(" h", " working hours")}`;
  return inTime ? `${first}; ${percent(inTime.estimate)} of first answers came in time` : first;
}

function Waits({ filter, loaded: { quality, promisedAnswerHours } }: { filter: DeskFilter; loaded: LoadedDeskQuality }) {
  const { counts, firstAnswer, verdict, inTime } = quality;
  const line = (name: string, waits: WaitSummary, over: DeskFigure, waiting: DeskFigure) => (
    <tr>
      <th scope="row">{name}</th>
      <td className="num">
        <a href={deskClaimsAddress(over, filter)}>{count(waits.over)}</a>
      </td>
      <td className="num">
        <a href={deskClaimsAddress(waiting, filter)}>{count(counts[waiting])}</a>
      </td>
      <td className={styles.nowrap}>{medianInWords(waits.working, workingHoursInWords)}</td>
      <td className={styles.nowrap}>{ninetiethInWords(waits.working, workingHoursInWords)}</td>
      <td className={styles.nowrap}>{medianInWords(waits.calendar, hoursInWords)}</td>
      <td className={styles.nowrap}>{ninetiethInWords(waits.calendar, hoursInWords)}</td>
    </tr>
  );
  return (
    <section className={styles.part}>
      <h2>{inTime ? `${percent(inTime.estimate)} of the first answers that were due came in time` : "No first answer was due yet"}</h2>
      {inTime ? (
        <p>
          Promised within {promisedAnswerHours} working hours, as the promise of each claim was made: <a href={deskClaimsAddress("on-time", filter)}>{count(counts["on-time"])} in time</a>, <a href={deskClaimsAddress("late", filter)}>{count(counts.late)} late</a>. Share in time {percent(inTime.estimate)}, 90 % interval {shareLimits(inTime)}.
        </p>
      ) : null}
      <div className="table-region">
        <table className={styles.list}>
          <thead>
            <tr>
              <th scope="col">Time from filing to</th>
              <th scope="col" className="num">
                Given
              </th>
              <th scope="col" className="num">
                Still waiting
              </th>
              <th scope="col">Half, working hours (90 % interval)</th>
              <th scope="col">Nine in ten, working hours</th>
              <th scope="col">Half, by the calendar</th>
              <th scope="col">Nine in ten</th>
            </tr>
          </thead>
          <tbody>
            {line("first answer", firstAnswer, "answered", "unanswered")}
            {line("first verdict", verdict, "decided", "undecided")}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Returns({ filter, loaded: { quality, needlessReturn, currency } }: { filter: DeskFilter; loaded: LoadedDeskQuality }) {
  const { counts, noFaultFound, worthOfReturnsAvoided } = quality;
  const inCurrency = (amount: number) => money({ currency, amountMinor: Math.round(amount * 100) });
  return (
    <section className={styles.part}>
      <h2>{noFaultFound ? `${percent(noFaultFound.estimate)} of the units sent in had no fault` : "No unit sent in has been judged yet"}</h2>
      {noFaultFound ? (
        <div className="table-region">
          <table className={styles.list}>
            <thead>
              <tr>
                <th scope="col">Of units inspected and decided</th>
                <th scope="col" className="num">
                  Claims
                </th>
                <th scope="col">Share, 90 % interval</th>
                <th scope="col" className={styles.wordy}>
                  0 to 100 %
                </th>
              </tr>
            </thead>
            <tbody>
              <tr>
                <th scope="row">no fault found</th>
                <td className="num">
                  <a href={deskClaimsAddress("no-fault-found", filter)}>{count(counts["no-fault-found"])}</a> of <a href={deskClaimsAddress("inspected", filter)}>{count(counts.inspected)}</a>
                </td>
                <td>
                  {percent(noFaultFound.estimate)} ({shareLimits(noFaultFound)})
                </td>
                <td>
                  <IntervalMark interval={noFaultFound} end={1} />
                </td>
              </tr>
            </tbody>
          </table>
        </div>
      ) : null}
      <p className="small soft">
        No fault found: the bench saw nothing wrong with seal rings, thrust bearing, journals or housing and the rig run was dry, as far as each was looked at, and the verdict lays it neither to the unit nor to carriage.
      </p>
      <p>
        <a href={deskClaimsAddress("returns-avoided", filter)}>
          <strong>{counts["returns-avoided"] === 1 ? "1 return was avoided" : `${count(counts["returns-avoided"])} returns were avoided`}</strong>
        </a>
        {counts["returns-avoided"] > 0 ? `, worth ${inCurrency(worthOfReturnsAvoided)}` : ""}, of <a href={deskClaimsAddress("suspected", filter)}>{claimsInWords(counts.suspected)} in which the unit was suspected</a>.
      </p>
      <p className="small soft">
        Suspected: by one of its rankings the unit was so probably defective that, at the stakes set today, a return was expected to cost less than a missed defect. Avoided: the unit was never asked for, and the claim was cleared by a check or decided with advice or a part, laid neither to the unit nor to carriage. Each is reckoned at what a needless return costs by the settings, {inCurrency(needlessReturn)}; parts sent are not taken off.
      </p>
    </section>
  );
}

function Overrules({ filter, loaded: { overrules, causes, quality: { counts }, seesReasons, timeZone } }: { filter: DeskFilter; loaded: LoadedDeskQuality }) {
  const nameOf = (code: string | null) => causes.find((cause) => cause.code === code)?.name ?? code ?? "";
  const day = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  return (
    <section className={styles.part}>
      <h2>{counts.overruled === 0 ? "No ranking was overruled" : counts.overruled === 1 ? "1 ranking was overruled" : `${count(counts.overruled)} rankings were overruled`}</h2>
      {overrules.length > 0 ? (
        <>
          <div className="table-region">
            <table className={styles.list}>
              <thead>
                <tr>
                  <th scope="col">Claim</th>
                  <th scope="col">Filed</th>
                  <th scope="col">The ranking put first</th>
                  <th scope="col">The verdict</th>
                  {seesReasons ? <th scope="col">Reason</th> : null}
                  <th scope="col">By</th>
                </tr>
              </thead>
              <tbody>
                {overrules.map((row) => (
                  <tr key={row.id}>
                    <th scope="row" className={styles.nowrap}>
                      <a href={`/queue/${row.id}`}>{row.reference}</a>
                    </th>
                    <td className={styles.nowrap}>{day.format(row.filedAt)}</td>
                    <td className={styles.wordy}>{row.leader ? `${row.leader} ${nameOf(row.leader)}` : "nothing: what was found does not fit together"}</td>
                    <td className={styles.wordy}>
                      {row.cause} {nameOf(row.cause)}
                    </td>
                    {seesReasons ? <td className={styles.wordy}>{row.reason}</td> : null}
                    <td>{row.decidedBy}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          {seesReasons ? null : <p className="small soft">Reasons may name a customer: they are shown to those who may see one.</p>}
          <p className="acts no-print">
            {counts.overruled > overrules.length ? (
              <a className="button tight plain" href={deskClaimsAddress("overruled", filter)}>
                All {count(counts.overruled)}
              </a>
            ) : null}
            <a className="button tight plain" href={deskFileAddress("overrules", filter)}>
              Overrules as CSV
            </a>
            <a className="button tight plain" href={deskFileAddress("overrules", { ...filter, format: "xlsx" })}>
              as a workbook
            </a>
          </p>
        </>
      ) : null}
    </section>
  );
}
