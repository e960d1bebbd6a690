import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import type { StaffActor } from "@/lib/access/actors";
import { requireStaff } from "@/lib/access/staff";
import { FITTING_DELAY_DAYS } from "@/lib/domain/reporting/months-in-service";
import { periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { type CausesFilter, causesFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { type CausesReport, loadCausesReport } from "@/lib/operations/load-causes-report";
import { loadReportChoices } from "@/lib/operations/load-report-choices";
import { carried, causesAddress, claimsAddress, fileAddress } from "../addresses";
import { KitPattern, MixKey } from "../attribution-mix";
import { claimsInWords, costsInWords, count, INTERVALS_IN_WORDS, rateInWords, weight } from "../figures-in-words";
import { narrowingInWords } from "../narrowing-in-words";
import { unknownInWords, usualPeriod } from "../read-address";
import styles from "../reports.module.css";
import { WaitingSignals } from "../signals/waiting-signals";
import { TimeLinks } from "../time/time-links";
import { CellList } from "./cell-list";
import { FilterForm } from "./filter-form";
import { Finding, headline } from "./finding";
import { Matrix } from "./matrix";

export const metadata: Metadata = { title: "Causes by kit and vehicle" };

export default async function CausesPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(causesAddress(firstValues(query)));
  const read = readFilter(causesFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedReport actor={actor} given={read.given} errors={read.errors} />;
  const report = await loadCausesReport(actor, read.filter);
  if (report.ok)
    return (
      <>
        <WaitingSignals actor={actor} />
        <Report filter={read.filter} report={report} />
      </>
    );
  if (report.reason === "not-allowed") forbidden();
  return <RefusedReport actor={actor} given={{ ...read.filter }} errors={unknownInWords(report)} />;
}

/** The form as it was filled in, with what is wrong beside the fields. */
async function RefusedReport({ actor, given, errors }: { actor: StaffActor; given: Readonly<Partial<Record<string, string | number>>>; errors: Readonly<Partial<Record<string, string>>> }) {
  const choices = await loadReportChoices(actor);
  if (!choices.ok) forbidden();
  const wrong = Object.keys(errors).length;
  return (
    <>
      <h1>Causes by kit and vehicle: {wrong === 1 ? "one answer needs" : `${wrong} answers need`} another look</h1>
      <FilterForm catalogue={choices.catalogue} causes={choices.causes} given={given} errors={errors} />
    </>
  );
}

function Report({ filter, report }: { filter: CausesFilter; report: CausesReport }) {
  const { from, to, cause, fitter } = filter;
  const { table, unmatched, waiting } = report;
  const { total } = table;
  const narrowing = carried({ ...filter });
  const narrowed = narrowingInWords(filter, report);
  const none = fitter ? "not known" : "none shipped";
  return (
    <div className={styles.wholeMatrix}>
      <h1>{headline(report, filter)}</h1>
      <Finding report={report} filter={{ ...filter }} />
      <TimeLinks filter={{ ...filter }} />
      <TitleBlock
        facts={[
          { name: "What was shipped", value: periodInWords(filter) },
          ...(narrowed ? [{ name: "Narrowed to", value: narrowed }] : []),
          { name: "Shipped", value: fitter ? "not known" : count(total.shipped) },
          { name: "Claims so far", value: <a href={claimsAddress({ ...filter, by: undefined, with: undefined })}>{count(total.claims)}</a> },
          { name: "Per 1,000 shipped", value: rateInWords(total.rate, total.claims, none) },
          { name: "Per 1,000 unit-months in service", value: rateInWords(total.serviceRate, total.claims, fitter ? "not known" : "none in service") },
          { name: "Cost so far", value: costsInWords(total.costs) },
          { name: "Not yet decided", value: <a href={claimsAddress({ ...filter, by: undefined, with: undefined, outcome: "undecided" })}>{count(total.outcomes.undecided)}</a> },
          ...(cause && filter.with
            ? [{ name: "Probable among the undecided", value: <a href={claimsAddress({ ...filter, by: undefined, with: undefined, outcome: undefined, role: "probable" })}>{weight(total.probable)}</a> }]
            : []),
        ]}
      />
      <FilterForm catalogue={report.catalogue} causes={report.causes} fitter={report.fitter} given={filter} />
      {table.rows.length > 0 && table.columns.length > 0 ? (
        <>
          <h2>{fitter ? "Claims, and what they were laid to" : "Claims per 1,000 shipped, with the 90 % interval (broken line: all together), and what they were laid to"}</h2>
          <KitPattern />
          <Matrix table={table} narrowing={narrowing} />
          <MixKey outcomes={total.outcomes} />
        </>
      ) : (
        <p>{shippedNothing(filter, report)}</p>
      )}
      <div className={`note small ${styles.part}`}>
        <p>
          Counted are the claims filed so far about what was shipped in these months, so that every claim stands against its own shipment; what was shipped lately will still bring more, and each cell is therefore compared with what else
          was shipped in the same months.
        </p>
        {fitter ? (
          <p>How many kits a fitter has fitted in all is not known: only those who claim tell their fitter. So there is no rate here, only counts and what they were laid to.</p>
        ) : (
          <p>
            Where the order did not tell the vehicle, the shipment is shared out to vehicles as the known ones of its kit revision are: {count(total.sharedOut)} of {count(total.shipped)} shipments. Months in service are estimated for every
            unit from the middle of its month of shipping and {FITTING_DELAY_DAYS} days until it is fitted; the fitting date is told for claimed units alone and is not used for the others. Under three claims a cell shows its count and
            interval only.
            {table.rowsLeftOut > 0 ? ` Left out: ${table.rowsLeftOut} ${filter.by === "kit" ? "kits" : "revisions"} of which nothing was shipped.` : ""}
          </p>
        )}
        {fitter ? null : <p>{INTERVALS_IN_WORDS} Times expected has that of its count, with the expected taken as known. Here nothing allows for how many cells are looked at; the signals do.</p>}
        {cause && filter.with ? (
          <p>Probable: what the rankings of claims not yet decided make of this cause, each claim shared out over its causes by their probabilities. It stands beside the verdicts and in no rate.</p>
        ) : null}
        {unmatched > 0 ? (
          <p>
            <a href={claimsAddress({ from, to, shipment: "none" })}>{claimsInWords(unmatched)}</a> filed in these months could not be matched with a shipment and {unmatched === 1 ? "stands" : "stand"} in no rate.
          </p>
        ) : null}
        {waiting > 0 ? <p>{waiting === 1 ? "One change is" : `${waiting < 1000 ? count(waiting) : "1,000 or more"} changes are`} not counted yet; they are taken over within seconds.</p> : null}
      </div>
      {total.claims > 0 || total.shipped > 0 ? (
        <>
          <h2 className={styles.part}>Cell by cell, the most striking first</h2>
          <CellList table={table} narrowing={narrowing} cause={cause} />
        </>
      ) : null}
      <p className="acts no-print">
        <a className="button tight plain" href={fileAddress("causes", { ...filter })}>
          These figures as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes", { ...filter, format: "xlsx" })}>
          as a workbook
        </a>
        <a className="button tight plain" href={fileAddress("causes/claims", { ...filter, by: undefined, with: undefined })}>
          The claims behind them as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/claims", { ...filter, by: undefined, with: undefined, format: "xlsx" })}>
          as a workbook
        </a>
      </p>
    </div>
  );
}

/** Why there is no table. */
function shippedNothing({ from, kit, batch }: CausesFilter, { today, table, catalogue }: CausesReport): string {
  if (from > today.slice(0, 7)) return "A report looks back: choose months up to this one.";
  if (batch !== undefined) return "No unit of this batch was shipped in these months. A batch is written as on the unit.";
  if (table.rowsLeftOut > 0 || kit !== undefined) return "The kits are in the catalogue, but no shipment of them in these months is known: choose other months, or bring in the shipments.";
  return catalogue.kits.length === 0 ? "There is no kit in the catalogue yet." : "No shipment in these months is known.";
}
