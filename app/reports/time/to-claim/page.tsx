import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { dayIn } from "@/app/returns/return-words";
import { requireStaff } from "@/lib/access/staff";
import { FITTING_DELAY_DAYS } from "@/lib/domain/reporting/months-in-service";
import { periodInWords } from "@/lib/domain/reporting/month";
import { shareClaimedBy, type TimeToClaim } from "@/lib/domain/reporting/time-to-claim";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { type ToClaimFilter, toClaimFilterSchema } from "@/lib/inputs/time-filter";
import { loadTimeToClaim, type TimeToClaimReport } from "@/lib/operations/load-time-to-claim";
import { claimsAddress, fileAddress, toClaimAddress } from "../../addresses";
import { count, rateInWords } from "../../figures-in-words";
import { narrowingInWords } from "../../narrowing-in-words";
import { unknownInWords } from "../../read-address";
import reports from "../../reports.module.css";
import { selectionName } from "../../selection-name";
import { usualYears } from "../read-time-address";
import { RefusedTime } from "../refused-time";
import styles from "../time.module.css";
import { TimeFilter } from "../time-filter";
import { TimeFrame } from "../time-frame";
import { LifeChart } from "./life-chart";
import { lifeHeadline, shapeInWords, shareInWords, VERDICT_WORDS, verdictInWords } from "./life-in-words";
import { ShapeMark } from "./shape-mark";

export const metadata: Metadata = { title: "Time to claim" };

const FORM = { action: "/reports/time/to-claim", period: "Shipped", fields: ["each", "cause", "outcome", "revision", "batch"] } as const;
const MONTHS_TOLD = [1, 3, 6, 12, 24] as const;

export default async function ToClaimPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(toClaimAddress(firstValues(query)));
  const read = readFilter(toClaimFilterSchema, query, usualYears());
  if (!read.ok) return <RefusedTime actor={actor} here="Time to claim" {...FORM} given={read.given} errors={read.errors} />;
  const report = await loadTimeToClaim(actor, read.filter);
  if (report.ok) return <ToClaim filter={read.filter} report={report} />;
  if (report.reason === "not-allowed") forbidden();
  return <RefusedTime actor={actor} here="Time to claim" {...FORM} given={{ ...read.filter }} errors={unknownInWords(report)} />;
}

function ToClaim({ filter, report }: { filter: ToClaimFilter; report: TimeToClaimReport }) {
  const { each, ...narrowing } = filter;
  const { catalogue, causes, whole, parts, sharedOut, today } = report;
  const name = selectionName(catalogue, filter);
  const narrowed = narrowingInWords(filter, { causes, fitter: null });
  const headline = lifeHeadline(name, whole);
  const told = MONTHS_TOLD.filter((month) => month <= whole.longest);
  const nameOf = (code: string) => (each === "cause" ? `${code} ${causes.find((cause) => cause.code === code)?.name ?? ""}` : code);
  const lines = [{ key: "whole", name: "All of these", life: whole, filter: narrowing as Partial<ToClaimFilter> }, ...parts.map(({ code, life }) => ({ key: code, name: nameOf(code), life, filter: { ...narrowing, [each]: code } }))];
  return (
    <TimeFrame here="Time to claim" filter={{ ...filter }}>
      <h1>{headline}</h1>
      <TitleBlock
        facts={[
          { name: "What was shipped", value: periodInWords(filter) },
          ...(narrowed ? [{ name: "Narrowed to", value: narrowed }] : []),
          { name: "Units", value: count(whole.units) },
          { name: "Not fitted yet, by the usual delay", value: count(whole.notFittedYet) },
          { name: "Claims", value: <a href={claimsAddress(narrowing)}>{count(whole.claims)}</a> },
          { name: "Per 1,000 unit-months in service", value: rateInWords(whole.rate, whole.claims, "none in service") },
          { name: "Weibull shape (90 %)", value: shapeInWords(whole) || "cannot be told" },
          { name: "Counted up to", value: dayIn("UTC", new Date(today)) },
        ]}
      />
      <TimeFilter {...FORM} catalogue={catalogue} causes={causes} given={filter} />
      <LifeChart life={whole} title={chartTitle(whole)} hrefOf={(month) => claimsAddress({ ...narrowing, serviceFrom: month, serviceTo: month })} />
      {whole.units > 0 ? (
        <section className={`table-region ${reports.part}`} aria-label={`Time to claim by ${each}`}>
          <h2>By {each}, most claims first</h2>
          <table className={reports.list}>
            <thead>
              <tr>
                <th scope="col">{each === "kit" ? "Kit" : "Primary cause"}</th>
                <th scope="col" className="num">
                  Units
                </th>
                <th scope="col" className="num">
                  Claims
                </th>
                {told.map((month) => (
                  <th key={month} scope="col" className="num">
                    With a claim by month {month}
                  </th>
                ))}
                <th scope="col" className="num">
                  Weibull shape (90 %)
                </th>
                <th scope="col">early ← 1 → wear</th>
                <th scope="col" className={styles.words}>
                  What it says
                </th>
              </tr>
            </thead>
            <tbody>
              {lines.map(({ key, name: of, life, filter: own }) => (
                <tr key={key}>
                  <th scope="row" className={each === "cause" ? styles.words : reports.nowrap}>
                    {key === "whole" ? of : <a href={toClaimAddress({ ...own, each })}>{of}</a>}
                  </th>
                  <td className="num">{count(life.units)}</td>
                  <td className="num">{life.claims > 0 ? <a href={claimsAddress({ ...own })}>{count(life.claims)}</a> : 0}</td>
                  {told.map((month) => (
                    <td key={month} className="num">
                      {shareInWords(shareClaimedBy(life, month))}
                    </td>
                  ))}
                  <td className="num">{shapeInWords(life)}</td>
                  <td>{life.fit.kind === "fitted" ? <ShapeMark shape={life.fit.shape} /> : null}</td>
                  <td>{verdictInWords(life)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : (
        <p>Choose other months, or bring in the shipments.</p>
      )}
      <div className={`note small ${reports.part}`}>
        <p>
          Shape under 1: claims die out with age ({VERDICT_WORDS.infant}); about 1: {VERDICT_WORDS.random}; over 1: they grow with age ({VERDICT_WORDS.wear}). Where the interval spans 1 it cannot be told, nor from under five claims. Faults of the start mixed with wear make one shape of two: look by cause.
        </p>
        <p>
          When a unit was fitted is known of claimed units alone. All others are taken to be in service from {FITTING_DELAY_DAYS} days after the middle of their month of shipping; a claim goes by its fitting date where it is told, and stands half way through its month in service. Whether a unit is still in service is not known.
          {filter.cause !== undefined || filter.outcome !== undefined || each === "cause" ? " A unit that claimed for something else, or whose claim is not decided yet, leaves the watch on that day." : ""}
          {sharedOut > 0 ? ` Of the units ${count(sharedOut)} are shared out to this vehicle, since the order did not tell theirs.` : ""}
        </p>
      </div>
      <p className="acts no-print">
        <a className="button tight plain" href={fileAddress("time/to-claim", { ...filter })}>
          This table as CSV
        </a>
        <a className="button tight plain" href={fileAddress("time/to-claim", { ...filter, format: "xlsx" })}>
          as a workbook
        </a>
      </p>
    </TimeFrame>
  );
}

function chartTitle(life: TimeToClaim): string {
  const year = shareClaimedBy(life, 12);
  const quarter = shareClaimedBy(life, 3);
  if (quarter && year) return `${shareInWords(quarter)} have claimed by month 3 in service, ${shareInWords(year)} by month 12`;
  return quarter ? `${shareInWords(quarter)} have claimed by month 3 in service` : "Share of the units with a claim, by month in service";
}
