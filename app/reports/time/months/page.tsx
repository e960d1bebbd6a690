import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { dayIn } from "@/app/returns/return-words";
import { requireStaff } from "@/lib/access/staff";
import { NEARLY_ALL, TOO_LITTLE } from "@/lib/domain/reporting/control-chart";
import { monthInWords, periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { type MonthsFilter, monthsFilterSchema } from "@/lib/inputs/time-filter";
import { LONG_AGO } from "@/lib/operations/report-place";
import { loadMonthsReport, type MonthsReport } from "@/lib/operations/load-months-report";
import { cellAddress, claimsAddress, fileAddress, monthsAddress } from "../../addresses";
import { count } from "../../figures-in-words";
import { narrowingInWords } from "../../narrowing-in-words";
import { unknownInWords } from "../../read-address";
import reports from "../../reports.module.css";
import { selectionName } from "../../selection-name";
import { usualYears } from "../read-time-address";
import { RefusedTime } from "../refused-time";
import styles from "../time.module.css";
import { TimeFilter } from "../time-filter";
import { TimeFrame } from "../time-frame";
import { CumulativeChart, MonthsChart } from "./months-chart";
import { changeInWords, fine, monthsHeadline, seasonInWords, startInWords } from "./months-in-words";
import { Pattern } from "./pattern";

export const metadata: Metadata = { title: "Claims by month" };

const FORM = { action: "/reports/time/months", period: "Months", fields: ["by", "cause", "outcome", "revision", "batch"] } as const;

export default async function MonthsPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(monthsAddress(firstValues(query)));
  const read = readFilter(monthsFilterSchema, query, usualYears());
  if (!read.ok) return <RefusedTime actor={actor} here="Claims by month" {...FORM} given={read.given} errors={read.errors} />;
  const report = await loadMonthsReport(actor, read.filter);
  if (report.ok) return <Months filter={read.filter} report={report} />;
  if (report.reason === "not-allowed") forbidden();
  return <RefusedTime actor={actor} here="Claims by month" {...FORM} given={{ ...read.filter }} errors={unknownInWords(report)} />;
}

function Months({ filter, report }: { filter: MonthsFilter; report: MonthsReport }) {
  const { by, ...narrowing } = filter;
  const { catalogue, causes, chart, pattern, sharedOut, today } = report;
  const { months, judged, changes, season } = chart;
  const name = selectionName(catalogue, filter);
  const narrowed = narrowingInWords(filter, { causes, fitter: null });
  const headline = monthsHeadline(name, chart, by);
  const claims = months.reduce((sum, month) => sum + month.claims, 0);
  const per = by === "shipped" ? "per 1,000 shipped" : "per 1,000 unit-months";
  const hrefOf = (month: string, of: number) => {
    if (by === "filed") return claimsAddress({ ...narrowing, from: LONG_AGO, to: today.slice(0, 7), filed: month });
    return of > 0 ? claimsAddress({ ...narrowing, from: month, to: month }) : cellAddress({ ...narrowing, from: month, to: month });
  };
  const outside = months.filter((month) => month.outside !== null);
  return (
    <TimeFrame here="Claims by month" filter={{ ...filter }}>
      <h1>{headline}</h1>
      <TitleBlock
        facts={[
          { name: by === "shipped" ? "What was shipped" : "Filed", value: periodInWords(filter) },
          ...(narrowed ? [{ name: "Narrowed to", value: narrowed }] : []),
          { name: "Claims", value: by === "shipped" ? <a href={claimsAddress(narrowing)}>{count(claims)}</a> : count(claims) },
          { name: "Months judged", value: judged.months },
          { name: `Level, ${per}`, value: judged.exposure > 0 ? fine((1000 * judged.claims) / judged.exposure) : "nothing to divide by" },
          { name: "Counted up to", value: dayIn("UTC", new Date(today)) },
        ]}
      />
      <TimeFilter {...FORM} catalogue={catalogue} causes={causes} given={filter} />
      {months.length === 0 ? (
        <p>{filter.from > today.slice(0, 7) ? "These months lie ahead: claims to come stand under “Claims to come”." : "Choose other months, or bring in the shipments."}</p>
      ) : (
        <>
          <ul className={styles.facts}>
            {changes.map((change) => (
              <li key={change.start}>
                A change: {changeInWords(change, months)}; {startInWords(change, months)}. Chance alone makes such a change somewhere in {change.pValue < 0.0001 ? "fewer than one of 10,000" : `about ${Math.max(1, Math.round(change.pValue * 10_000))} of 10,000`} charts.
              </li>
            ))}
            {season.kind === "season" ? <li>A season, and no change: {seasonInWords(season, months)}. Limits and changes are reckoned by season.</li> : null}
            {season.kind === "none" ? <li>No season: over {season.years} years nothing comes back each year beyond chance.</li> : null}
            {season.kind === "too-short" ? <li>Under two years: a season, such as frost, cannot be told from a change yet.</li> : null}
            {outside.length > 0 ? <li>Out of the ordinary by itself: {outside.map(({ month, outside: side }) => `${monthInWords(month)} (${side})`).join(", ")}.</li> : null}
          </ul>
          <MonthsChart chart={chart} by={by} title={headline} hrefOf={hrefOf} />
          {claims > 0 && judged.months > 1 ? <CumulativeChart chart={chart} title={changes.length > 0 ? "Claims beyond the mean, added up: the sum turns where the rate changed" : "Claims beyond the mean, added up: it wanders as chance does"} /> : null}
          <section className={`table-region ${reports.part}`} aria-label="Claims by month">
            <table className={reports.list}>
              <caption className="visually-hidden">The figures of the charts, month by month</caption>
              <thead>
                <tr>
                  <th scope="col">{by === "shipped" ? "Shipped in" : "Filed in"}</th>
                  <th scope="col" className="num">
                    {by === "shipped" ? "Shipped" : "Unit-months, by age"}
                  </th>
                  <th scope="col" className="num">
                    Claims so far
                  </th>
                  <th scope="col" className="num">
                    Known of them
                  </th>
                  <th scope="col" className="num">
                    {per} (90 %)
                  </th>
                  <th scope="col" className="num">
                    Chance leaves
                  </th>
                  <th scope="col" className="num">
                    Beyond the mean, added up
                  </th>
                  <th scope="col" className={styles.words}>
                    In words
                  </th>
                </tr>
              </thead>
              <tbody>
                {months.toReversed().map((month) => (
                  <tr key={month.month} className={month.kind === "complete" ? undefined : styles.waiting}>
                    <th scope="row" className={reports.nowrap}>
                      {monthInWords(month.month)}
                    </th>
                    <td className="num">{count(month.exposure)}</td>
                    <td className="num">
                      <a href={hrefOf(month.month, month.claims)}>{count(month.claims)}</a>
                    </td>
                    <td className="num">{month.kind === "empty" ? "" : `${Math.round(month.share * 100)} %`}</td>
                    <td className="num">{month.rate ? `${fine(month.rate.estimate)} (${fine(month.rate.lower)}–${fine(month.rate.upper)})` : ""}</td>
                    <td className="num">{month.limits ? `${fine(month.limits.lower)}–${fine(month.limits.upper)}` : ""}</td>
                    <td className="num">{month.cumulative === null ? "" : signed(month.cumulative)}</td>
                    <td>{WORDS[month.kind][by]}{month.outside ? `${WORDS[month.kind][by] ? "; " : ""}${month.outside} what chance leaves` : ""}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </>
      )}
      <div className={`note small ${reports.part}`}>
        <Pattern pattern={pattern} isByVerdict={filter.cause !== undefined || filter.outcome !== undefined} />
        <p>
          A month counts as known when {Math.round(NEARLY_ALL * 100)} % of its claims are, and is judged from {Math.round(TOO_LITTLE * 100)} % on. {chart.widening > 1.05 ? `Months spread ${fine(chart.widening)} times as far as counts alone would; limits and changes allow for it.` : "Months spread no further than counts do."} Where few claims are to be expected the limits are the exact ones of counts.
          {sharedOut > 0 ? ` Of the units ${count(sharedOut)} are shared out to this vehicle, since the order did not tell theirs.` : ""}
        </p>
      </div>
      <p className="acts no-print">
        <a className="button tight plain" href={fileAddress("time/months", { ...filter })}>
          This table as CSV
        </a>
        <a className="button tight plain" href={fileAddress("time/months", { ...filter, format: "xlsx" })}>
          as a workbook
        </a>
        <a className="button tight plain" href={monthsAddress({ ...filter, by: by === "shipped" ? "filed" : "shipped" })}>
          By month of {by === "shipped" ? "filing, to see a season" : "shipping, to see a revision or batch"}
        </a>
      </p>
    </TimeFrame>
  );
}

/** Never a minus before nothing. */
function signed(value: number): string {
  return Math.abs(value) < 0.05 ? "0.0" : value.toFixed(1);
}

const WORDS = {
  complete: { shipped: "", filed: "" },
  incomplete: { shipped: "some claims still to come", filed: "some still to be decided" },
  "too-new": { shipped: "too new to judge", filed: "too few decided to judge" },
  empty: { shipped: "none shipped", filed: "none in the field" },
} as const;
