import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import type { StaffActor } from "@/lib/access/actors";
import { requireStaff } from "@/lib/access/staff";
import { periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { type CausesFilter, causesFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { type CausesReport, loadCausesReport } from "@/lib/operations/load-causes-report";
import { loadReportChoices } from "@/lib/operations/load-report-choices";
import { causesAddress, claimsAddress, fileAddress } from "../addresses";
import { KitPattern, MixKey } from "../attribution-mix";
import { claimsInWords, count, figure, limits } from "../figures-in-words";
import { unknownInWords, usualPeriod } from "../read-address";
import styles from "../reports.module.css";
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
  if (report.ok) return <Report filter={read.filter} report={report} />;
  if (report.reason === "not-allowed") forbidden();
  return <RefusedReport actor={actor} given={{ ...read.filter }} errors={unknownInWords(report)} />;
}

/** The form as it was filled in, with what is wrong beside the fields. */
async function RefusedReport({ actor, given, errors }: { actor: StaffActor; given: Readonly<Partial<Record<string, string>>>; errors: Readonly<Partial<Record<string, string>>> }) {
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
  const { from, to, cause } = filter;
  const { table, unmatched } = report;
  const { total } = table;
  const causeName = report.causes.find(({ code }) => code === cause)?.name;
  return (
    <>
      <h1>{headline(report, filter)}</h1>
      <Finding report={report} filter={{ ...filter }} />
      <TitleBlock
        facts={[
          { name: "What was shipped", value: periodInWords(filter) },
          { name: "Cause", value: causeName ? `${cause} ${causeName}` : "any, or not yet decided" },
          { name: "Shipped", value: count(total.shipped) },
          { name: "Claims so far", value: <a href={claimsAddress({ ...filter, by: undefined })}>{count(total.claims)}</a> },
          { name: "Per 1,000 shipped", value: total.rate ? `${figure(total.rate.estimate)} (${limits(total.rate)})` : "none shipped" },
          { name: "Not yet decided", value: <a href={claimsAddress({ ...filter, by: undefined, outcome: "undecided" })}>{count(total.outcomes.undecided)}</a> },
        ]}
      />
      <FilterForm catalogue={report.catalogue} causes={report.causes} given={filter} />
      {table.rows.length > 0 && table.columns.length > 0 ? (
        <>
          <h2>Claims per 1,000 shipped, with the 90 % interval, and what they were laid to</h2>
          <KitPattern />
          <Matrix table={table} period={{ from, to }} />
          <MixKey outcomes={total.outcomes} />
        </>
      ) : null}
      <div className={`note small ${styles.part}`}>
        <p>
          Counted are the claims filed so far about what was shipped in these months, so that every claim stands against its own shipment; what was shipped lately will still bring more, and each cell is therefore compared with what else
          was shipped in the same months.
        </p>
        <p>
          Where the order did not tell the vehicle, the shipment is shared out to vehicles as the known ones of its kit revision are: {count(total.sharedOut)} of {count(total.shipped)} shipments. Under three claims a cell shows its count
          and interval only.
          {table.rowsLeftOut > 0 ? ` Left out: ${table.rowsLeftOut} ${filter.by === "kit" ? "kits" : "revisions"} of which nothing was shipped.` : ""}
        </p>
        {unmatched > 0 ? (
          <p>
            <a href={claimsAddress({ from, to, shipment: "none" })}>{claimsInWords(unmatched)}</a> filed in these months could not be matched with a shipment and {unmatched === 1 ? "stands" : "stand"} in no rate.
          </p>
        ) : null}
      </div>
      {total.shipped > 0 ? (
        <>
          <h2 className={styles.part}>Cell by cell, the most striking first</h2>
          <CellList table={table} period={{ from, to }} cause={cause} />
        </>
      ) : null}
      <p className="acts no-print">
        <a className="button tight plain" href={fileAddress("causes", { ...filter })}>
          These figures as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/claims", { ...filter, by: undefined })}>
          The claims behind them as CSV
        </a>
      </p>
    </>
  );
}
