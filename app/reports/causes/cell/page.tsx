import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { TitleBlock } from "@/app/_components/title-block";
import { requireStaff } from "@/lib/access/staff";
import { may } from "@/lib/domain/claims/permissions";
import { FITTING_DELAY_DAYS } from "@/lib/domain/reporting/months-in-service";
import { monthInWords, periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter, type SelectionFilter, selectionFilterSchema } from "@/lib/inputs/report-filter";
import { type LoadedSelection, loadCausesOfASelection } from "@/lib/operations/load-causes-of-a-selection";
import { address, carried, causesAddress, cellAddress, claimsAddress, fileAddress } from "../../addresses";
import { KitPattern, LinkedAttributionMix, MixKey } from "../../attribution-mix";
import { claimsInWords, costsInWords, count, INTERVALS_IN_WORDS, rateInWords } from "../../figures-in-words";
import { narrowingInWords, ORIGIN_NAMES } from "../../narrowing-in-words";
import { OutcomeCounts } from "../../outcome-counts";
import { unknownInWords, usualPeriod } from "../../read-address";
import { RefusedFilter } from "../../refused-filter";
import styles from "../../reports.module.css";
import { selectionName } from "../../selection-name";
import { SignalsAbout } from "../../signals/signals-about";
import { TimeLinks } from "../../time/time-links";
import { Fitters } from "./fitters";
import { Pareto } from "./pareto";
import { RateTable } from "./rate-table";
import { Revisions } from "./revisions";

/** As many months of shipping stand open, and are printed. */
const MONTHS_AT_A_GLANCE = 12;

export const metadata: Metadata = { title: "Causes of a kit on a vehicle" };

export default async function CellPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(cellAddress(firstValues(query)));
  const read = readFilter(selectionFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const loaded = await loadCausesOfASelection(actor, read.filter);
  if (loaded.ok) return <Selection filter={read.filter} loaded={loaded} tellsSupplier={may(actor.role, "write to a supplier")} />;
  if (loaded.reason === "not-allowed") forbidden();
  return <RefusedFilter errors={unknownInWords(loaded)} />;
}

function Selection({ filter, loaded, tellsSupplier }: { filter: SelectionFilter; loaded: LoadedSelection; tellsSupplier: boolean }) {
  const { catalogue, causes, report, breakdown, fitter } = loaded;
  const { figures } = report;
  const claims = { ...filter, with: undefined };
  const narrowed = narrowingInWords(filter, loaded);
  const nameOf = (code: string) => causes.find((cause) => cause.code === code)?.name ?? code;
  return (
    <div className={styles.onePage}>
      <p className="small letter soft">
        <a href={causesAddress(carried({ ...filter }))}>Causes by kit and vehicle</a> / {selectionName(catalogue, filter)}
      </p>
      <h1>{headline(selectionName(catalogue, filter), loaded, nameOf)}</h1>
      <SignalsAbout loaded={loaded} />
      <TimeLinks filter={{ ...filter }} />
      <TitleBlock
        facts={[
          { name: "What was shipped", value: periodInWords(filter) },
          ...(narrowed ? [{ name: "Narrowed to", value: narrowed }] : []),
          { name: "Shipped", value: fitter ? "not known" : figures.sharedOut > 0 ? `${count(figures.shipped)}, of these ${count(figures.sharedOut)} shared out` : count(figures.shipped) },
          { name: "Claims so far", value: <a href={claimsAddress(claims)}>{count(figures.claims)}</a> },
          { name: "Per 1,000 shipped", value: rateInWords(figures.rate, figures.claims, fitter ? "not known" : "none shipped") },
          { name: "Per 1,000 unit-months in service", value: rateInWords(figures.serviceRate, figures.claims, fitter ? "not known" : "none in service") },
          { name: "Cost so far", value: costsInWords(figures.costs) },
          { name: "Decided", value: <a href={claimsAddress({ ...claims, outcome: "decided" })}>{count(figures.decided)}</a> },
          { name: "Not yet decided", value: <a href={claimsAddress({ ...claims, outcome: "undecided" })}>{count(figures.outcomes.undecided)}</a> },
        ]}
      />
      {figures.claims > 0 ? (
        <section className={styles.part}>
          <h2>{figures.claims === 1 ? "What the one claim was laid to" : `What the ${claimsInWords(figures.claims)} were laid to`}</h2>
          <KitPattern />
          <LinkedAttributionMix id="mix" outcomes={figures.outcomes} hrefOf={(outcome) => claimsAddress({ ...claims, outcome })} />
          <OutcomeCounts outcomes={figures.outcomes} selection={claims} />
          <MixKey outcomes={figures.outcomes} />
          {breakdown && breakdown.origins.length > 0 ? (
            <p className="small">
              Where fitting and kit were told apart, it lay with{" "}
              {breakdown.origins.map(({ origin, claims: times }, index) => (
                <span key={origin}>
                  {index > 0 ? ", " : ""}
                  <a href={claimsAddress({ ...claims, origin })}>
                    {ORIGIN_NAMES[origin]}: {count(times)}
                  </a>
                </span>
              ))}
              .
            </p>
          ) : null}
        </section>
      ) : null}
      {report.causes.length > 0 ? (
        <section className={styles.part}>
          <h2>{figures.decided === 1 ? "Cause named in the one decided" : figures.decided > 0 ? `Causes named in the ${count(figures.decided)} decided` : "No verdict yet: probable causes"}</h2>
          <Pareto lines={report.causes} causes={causes} selection={claims} />
          {report.causes.some(({ probable }) => probable > 0) ? (
            <p className="small soft">
              Probable: the {claimsInWords(figures.outcomes.undecided)} without a verdict, each shared out over its causes by the probabilities of its ranking. A guess beside the verdicts: it counts in no share, rate or cost. Causes that no verdict names and that make up less than half a claim are left to the file.
            </p>
          ) : null}
        </section>
      ) : null}
      {report.revisions.length > 0 ? (
        <section className={styles.part}>
          <h2>By revision</h2>
          <Revisions lines={report.revisions} selection={{ ...filter }} nameOf={nameOf} />
        </section>
      ) : null}
      {report.months.length > 0 && !fitter ? (
        <RateTable
          title="By month of shipping"
          isOpen={report.months.length <= MONTHS_AT_A_GLANCE}
          first="Shipped in"
          exposure="Shipped"
          per="per 1,000 shipped"
          lines={report.months.map(({ month, figures: { shipped, claims: times, rate } }) => ({
            key: month,
            name: <a href={cellAddress({ ...filter, from: month, to: month })}>{monthInWords(month)}</a>,
            exposure: shipped,
            claims: times,
            href: claimsAddress({ ...claims, from: month, to: month }),
            rate,
          }))}
          file={fileAddress("causes/cell", { ...filter, table: "months" })}
        />
      ) : null}
      {breakdown ? (
        <>
          {breakdown.ages.length > 0 && !fitter ? (
            <RateTable
              title="By month in service"
              first="Month in service"
              exposure="Unit-months, estimated"
              per="per 1,000 unit-months"
              lines={breakdown.ages.map(({ monthInService, claims: times, unitMonths, rate }) => ({
                key: String(monthInService),
                name: monthInService === 0 ? "the first" : `after ${monthInService}`,
                exposure: unitMonths,
                claims: times,
                href: claimsAddress({ ...claims, serviceFrom: monthInService, serviceTo: monthInService }),
                rate,
              }))}
              file={fileAddress("causes/cell", { ...filter, table: "ages" })}
            />
          ) : null}
          {breakdown.batches.length > 0 && !fitter ? (
            <RateTable
              title="By batch of the unit"
              first="Batch"
              exposure="Shipped"
              per="per 1,000 shipped"
              lines={breakdown.batches.map(({ batch, shipped, claims: times, rate }) => ({
                key: batch ?? "none",
                name: batch === null ? "without a unit" : <a href={cellAddress({ ...filter, batch })}>{batch}</a>,
                exposure: shipped,
                claims: times,
                href: claimsAddress({ ...claims, batch }),
                rate,
              }))}
              file={fileAddress("causes/cell", { ...filter, table: "batches" })}
            />
          ) : null}
          {breakdown.fitters.length > 0 ? <Fitters fitters={breakdown.fitters} selection={{ ...filter }} /> : null}
        </>
      ) : (
        <p className={`${styles.part} soft`}>Choose a kit, a vehicle or a batch to see months in service, batches and fitters.</p>
      )}
      <p className={`note small ${styles.part}`}>
        {fitter
          ? "How many kits this fitter has fitted in all is not known, so there is no rate here."
          : `Months in service are estimated for every unit from the middle of its month of shipping and ${FITTING_DELAY_DAYS} days until it is fitted: fitting dates are told for claimed units alone. A claim's own month in service goes by its fitting date where it is told.`}{" "}
        {INTERVALS_IN_WORDS}
      </p>
      <p className="acts no-print">
        {tellsSupplier && (filter.kit !== undefined || filter.batch !== undefined) ? (
          <a className="button tight plain" href={address("/reports/supplier", { ...carried({ ...filter }), kit: filter.kit, revision: filter.revision, vehicle: filter.vehicle, cause: filter.cause })}>
            Summary for a supplier
          </a>
        ) : null}
        <a className="button tight plain" href={fileAddress("causes/cell", filter)}>
          These causes as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/cell", { ...filter, format: "xlsx" })}>
          as a workbook
        </a>
        <a className="button tight plain" href={fileAddress("causes/cell", { ...filter, table: "revisions" })}>
          The revisions as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/cell", { ...filter, table: "revisions", format: "xlsx" })}>
          as a workbook
        </a>
        <a className="button tight plain" href={fileAddress("causes/claims", claims)}>
          The claims behind them as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/claims", { ...claims, format: "xlsx" })}>
          as a workbook
        </a>
      </p>
    </div>
  );
}

/** What the figures of the selection say, as the page's heading. */
function headline(name: string, { report: { figures, causes }, catalogue }: LoadedSelection, nameOf: (cause: string) => string): string {
  if (figures.shipped === 0 && figures.claims === 0) return catalogue.kits.length === 0 ? "There is no kit in the catalogue yet" : `${name}: none shipped in this period`;
  if (figures.claims === 0) return `${name}: no claim so far`;
  const [leader, second] = causes;
  if (!leader || leader.primary === 0) return `${name}: ${claimsInWords(figures.claims)}, none decided yet`;
  if (figures.decided === 1) return `${name}: one claim decided, “${nameOf(leader.cause)}”`;
  if (leader.primary === figures.decided) return `${name}: all ${count(figures.decided)} decided were “${nameOf(leader.cause)}”`;
  if (second && second.primary === leader.primary) return `${name}: no single cause leads among ${count(figures.decided)} decided`;
  return `${name}: most often “${nameOf(leader.cause)}”, ${leader.primary} of ${count(figures.decided)} decided`;
}
