import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { requireStaff } from "@/lib/access/staff";
import { FEWEST_ENDED } from "@/lib/domain/reporting/forecast";
import { monthInWords, periodInWords } from "@/lib/domain/reporting/month";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { type ForecastFilter, forecastFilterSchema } from "@/lib/inputs/time-filter";
import { type ForecastLine, type ForecastReport, loadForecast } from "@/lib/operations/load-forecast";
import { claimsAddress, fileAddress, forecastAddress } from "../../addresses";
import { claimsInWords, count, money } from "../../figures-in-words";
import { unknownInWords } from "../../read-address";
import reports from "../../reports.module.css";
import { selectionName } from "../../selection-name";
import { usualYears } from "../read-time-address";
import { RefusedTime } from "../refused-time";
import styles from "../time.module.css";
import { TimeFilter } from "../time-filter";
import { TimeFrame } from "../time-frame";
import { ForecastChart } from "./forecast-chart";

export const metadata: Metadata = { title: "Claims to come" };

const FORM = { action: "/reports/time/forecast", period: "Shipped", fields: ["months", "revision", "batch"] } as const;

export default async function ForecastPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(forecastAddress(firstValues(query)));
  const read = readFilter(forecastFilterSchema, query, usualYears());
  if (!read.ok) return <RefusedTime actor={actor} here="Claims to come" {...FORM} given={read.given} errors={read.errors} />;
  const report = await loadForecast(actor, read.filter);
  if (report.ok) return <Forecast filter={read.filter} report={report} />;
  if (report.reason === "not-allowed") forbidden();
  return <RefusedTime actor={actor} here="Claims to come" {...FORM} given={{ ...read.filter }} errors={unknownInWords(report)} />;
}

function Forecast({ filter, report }: { filter: ForecastFilter; report: ForecastReport }) {
  const { months: ahead, table: _table, ...narrowing } = filter;
  const { catalogue, whole, kits, sharedOut, today } = report;
  const name = selectionName(catalogue, filter);
  const form = <TimeFilter {...FORM} catalogue={catalogue} causes={[]} given={filter} />;
  if (!whole)
    return (
      <TimeFrame here="Claims to come" filter={{ ...filter }}>
        <h1>{name}: nothing in the field to learn from</h1>
        {form}
        <p>Nothing was shipped in these months before the present one. Choose other months, or bring in the shipments.</p>
      </TimeFrame>
    );
  const { forecast, cost } = whole;
  const last = forecast.months.at(-1);
  const headline = last ? `${name}: ${last.isAtLeast ? "at least " : ""}${claimsInWords(Math.round(last.upTo.estimate))} more by the end of ${monthInWords(last.month)}` : name;
  const currencies = cost.map(({ perClaim }) => perClaim.currency);
  return (
    <TimeFrame here="Claims to come" filter={{ ...filter }}>
      <h1>{headline}</h1>
      <TitleBlock
        facts={[
          { name: "What was shipped", value: periodInWords(filter) },
          { name: "Units in the field", value: count(forecast.units) },
          { name: `Claims in the next ${ahead === 1 ? "month" : `${ahead} months`}`, value: last ? wholeLimits(last.upTo) : "" },
          ...cost.map(({ perClaim, expected }) => ({ name: `Their cost, ${perClaim.currency}`, value: amountLimits(perClaim.currency, expected) })),
          { name: "Rests on", value: <a href={claimsAddress(narrowing)}>{claimsInWords(forecast.claims)} in whole months</a> },
          { name: "From", value: `1 ${monthInWords(today.slice(0, 7))}` },
        ]}
      />
      {form}
      <ForecastChart months={forecast.months} title={`${headline}${last ? `, between ${count(last.upTo.lower)} and ${count(last.upTo.upper)}` : ""}`} href={claimsAddress(narrowing)} />
      <section className={`table-region ${reports.part}`} aria-label="Claims to come by month">
        <table className={reports.list}>
          <caption className="visually-hidden">The figures of the chart, month by month</caption>
          <thead>
            <tr>
              <th scope="col">Month</th>
              <th scope="col" className="num">
                Claims in it
              </th>
              <th scope="col" className="num">
                Claims up to its end (90 %)
              </th>
              <th scope="col">That is</th>
            </tr>
          </thead>
          <tbody>
            {forecast.months.map(({ month, claims, upTo, isAtLeast }) => (
              <tr key={month}>
                <th scope="row">{monthInWords(month)}</th>
                <td className="num">{claims.toFixed(1)}</td>
                <td className="num">{wholeLimits(upTo)}</td>
                <td>{isAtLeast ? "at least" : "all"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <section className={`table-region ${reports.part}`} aria-label="Claims to come by kit">
        <h2>By kit, most to come first: the next {ahead === 1 ? "month" : `${ahead} months`}</h2>
        <table className={reports.list}>
          <thead>
            <tr>
              <th scope="col">Kit</th>
              <th scope="col" className="num">
                In the field
              </th>
              <th scope="col" className="num">
                Claims in whole months
              </th>
              <th scope="col" className="num">
                To come (90 %)
              </th>
              {currencies.map((currency) => (
                <th key={currency} scope="col" className="num">
                  Cost of them, {currency} (90 %)
                </th>
              ))}
              {currencies.map((currency) => (
                <th key={currency} scope="col" className="num">
                  A claim, {currency}
                </th>
              ))}
              <th scope="col" className={styles.words}>
                Told by
              </th>
            </tr>
          </thead>
          <tbody>
            {kits.map((line) => (
              <KitLine key={line.code} line={line} narrowing={narrowing} ahead={ahead} currencies={currencies} />
            ))}
          </tbody>
        </table>
      </section>
      <div className={`note small ${reports.part}`}>
        <p>
          Each month since shipping is taken to bring what it brought in the units that have been through it; nothing is assumed past {forecast.oldestAge} months, the oldest age that a tenth of the units has reached, so where some grow older it is “at least”. The interval takes in how well these rates are known and chance in what comes, not that what is sold may change. Units still to be shipped are left out.
        </p>
        {forecast.untilOldest ? (
          <p>
            Until every unit has been through {forecast.oldestAge} months: {wholeLimits(forecast.untilOldest.byAge)} by rates of age;{" "}
            {forecast.untilOldest.byLadder
              ? `${count(forecast.untilOldest.byLadder.estimate)} by chain ladder${forecast.untilOldest.byLadder.standardError === null ? ", its error not known" : ` with Mack's standard error of ${count(forecast.untilOldest.byLadder.standardError)}`}`
              : "the chain ladder has an age with nothing to grow from"}
            . Two ways that agree are worth more than one.
          </p>
        ) : null}
        <p>
          {cost.length === 0
            ? "No claim of these has cost anything yet, so no cost can be told."
            : cost.map(({ perClaim }) => `A claim costs ${money({ currency: perClaim.currency, amountMinor: perClaim.meanMinor })} on average, give or take ${money({ currency: perClaim.currency, amountMinor: perClaim.deviationMinor })} from claim to claim: ${count(perClaim.paid)} of ${claimsInWords(perClaim.ended)} that have ended cost anything.`).join(" ")}{" "}
          A kit with fewer than {FEWEST_ENDED} ended claims is taken to cost what all of these do.
          {sharedOut > 0 ? ` Of the units ${count(sharedOut)} are shared out to this vehicle, since the order did not tell theirs.` : ""}
        </p>
      </div>
      <p className="acts no-print">
        {(["months", "kits"] as const).map((table) => (
          <span key={table}>
            <a className="button tight plain" href={fileAddress("time/forecast", { ...filter, table })}>
              The {table} as CSV
            </a>{" "}
            <a className="button tight plain" href={fileAddress("time/forecast", { ...filter, table, format: "xlsx" })}>
              as a workbook
            </a>
          </span>
        ))}
      </p>
    </TimeFrame>
  );
}

function KitLine({ line, narrowing, ahead, currencies }: { line: { code: string } & ForecastLine; narrowing: Partial<ForecastFilter>; ahead: number; currencies: readonly string[] }) {
  const { code, forecast, cost, isCostOfAll } = line;
  const last = forecast.months.at(-1);
  const of = (currency: string) => cost.find(({ perClaim }) => perClaim.currency === currency);
  const [first] = cost;
  return (
    <tr>
      <th scope="row">
        <a href={forecastAddress({ ...narrowing, kit: code, months: ahead })}>{code}</a>
      </th>
      <td className="num">{count(forecast.units)}</td>
      <td className="num">{forecast.claims > 0 ? <a href={claimsAddress({ ...narrowing, kit: code })}>{count(forecast.claims)}</a> : 0}</td>
      <td className="num">{last ? `${last.isAtLeast ? "at least " : ""}${wholeLimits(last.upTo)}` : ""}</td>
      {currencies.map((currency) => {
        const expected = of(currency)?.expected;
        return (
          <td key={currency} className="num">
            {expected ? amountLimits(currency, expected) : ""}
          </td>
        );
      })}
      {currencies.map((currency) => {
        const own = of(currency);
        return (
          <td key={currency} className="num">
            {own ? amount(currency, own.perClaim.meanMinor) : ""}
          </td>
        );
      })}
      <td>{first ? `${count(first.perClaim.paid)} of ${count(first.perClaim.ended)} ended cost anything${isCostOfAll ? ", of all kits here" : ""}` : "none has cost anything"}</td>
    </tr>
  );
}

/** Claims as whole numbers with their limits: "264 (236–306)". */
function wholeLimits({ estimate, lower, upper }: Interval): string {
  return `${count(estimate)} (${count(lower)}–${count(upper)})`;
}

/** An amount in whole units of its currency: cents are more than a forecast bears. */
function amount(currency: string, amountMinor: number): string {
  const words = new Intl.NumberFormat("en-GB", { style: "currency", currency });
  return count(amountMinor / 10 ** (words.resolvedOptions().maximumFractionDigits ?? 2));
}

function amountLimits(currency: string, { estimate, lower, upper }: Interval): string {
  return `${amount(currency, estimate)} (${amount(currency, lower)}–${amount(currency, upper)})`;
}
