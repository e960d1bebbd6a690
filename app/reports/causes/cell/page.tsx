import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { Balloon } from "@/app/_components/balloon";
import { percent } from "@/app/_components/scale";
import { TitleBlock } from "@/app/_components/title-block";
import { requireStaff } from "@/lib/access/staff";
import { FEWEST_CLAIMS } from "@/lib/domain/reporting/figures";
import { periodInWords } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter, type SelectionFilter, selectionFilterSchema } from "@/lib/inputs/report-filter";
import { type LoadedSelection, loadCausesOfASelection } from "@/lib/operations/load-causes-of-a-selection";
import { causesAddress, cellAddress, claimsAddress, fileAddress } from "../../addresses";
import { KitPattern, LinkedAttributionMix, MixKey } from "../../attribution-mix";
import { claimsInWords, count, figure, limits, shareLimits, tightLimits } from "../../figures-in-words";
import { IntervalMark } from "../../interval-mark";
import { OutcomeCounts } from "../../outcome-counts";
import { unknownInWords, usualPeriod } from "../../read-address";
import { RefusedFilter } from "../../refused-filter";
import styles from "../../reports.module.css";
import { selectionName } from "../../selection-name";

export const metadata: Metadata = { title: "Causes of a kit on a vehicle" };

export default async function CellPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(cellAddress(firstValues(query)));
  const read = readFilter(selectionFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const loaded = await loadCausesOfASelection(actor, read.filter);
  if (loaded.ok) return <Selection filter={read.filter} loaded={loaded} />;
  if (loaded.reason === "not-allowed") forbidden();
  return <RefusedFilter errors={unknownInWords(loaded)} />;
}

function Selection({ filter, loaded: { catalogue, causes, report } }: { filter: SelectionFilter; loaded: LoadedSelection }) {
  const { figures } = report;
  const { from, to } = filter;
  const causeOf = (code: string) => causes.find((cause) => cause.code === code);
  const nameOf = (code: string) => causeOf(code)?.name ?? code;
  const end = Math.max(0.1, ...report.causes.map(({ share }) => share.upper));
  return (
    <>
      <p className="small letter soft">
        <a href={causesAddress({ from, to })}>Causes by kit and vehicle</a> / {selectionName(catalogue, filter)}
      </p>
      <h1>{headline(selectionName(catalogue, filter), report, nameOf)}</h1>
      <TitleBlock
        facts={[
          { name: "What was shipped", value: periodInWords(filter) },
          { name: "Shipped", value: figures.sharedOut > 0 ? `${count(figures.shipped)}, of these ${count(figures.sharedOut)} shared out` : count(figures.shipped) },
          { name: "Claims so far", value: <a href={claimsAddress(filter)}>{count(figures.claims)}</a> },
          { name: "Per 1,000 shipped", value: figures.rate ? (figures.claims < FEWEST_CLAIMS ? limits(figures.rate) : `${figure(figures.rate.estimate)} (${limits(figures.rate)})`) : "none shipped" },
          { name: "Decided", value: <a href={claimsAddress({ ...filter, outcome: "decided" })}>{count(figures.decided)}</a> },
          { name: "Not yet decided", value: <a href={claimsAddress({ ...filter, outcome: "undecided" })}>{count(figures.outcomes.undecided)}</a> },
        ]}
      />
      {figures.claims > 0 ? (
        <section className={styles.part}>
          <h2>What the {claimsInWords(figures.claims)} were laid to</h2>
          <KitPattern />
          <LinkedAttributionMix id="mix" outcomes={figures.outcomes} hrefOf={(outcome) => claimsAddress({ ...filter, outcome })} />
          <OutcomeCounts outcomes={figures.outcomes} selection={filter} />
          <MixKey outcomes={figures.outcomes} />
        </section>
      ) : null}
      {report.causes.length > 0 ? (
        <section className={styles.part}>
          <h2>Causes named in the {count(figures.decided)} decided</h2>
          <section className="table-region" aria-label="Causes">
            <table className={styles.list}>
              <thead>
                <tr>
                  <th scope="col">Cause</th>
                  <th scope="col" className="num">
                    Primary
                  </th>
                  <th scope="col" className="num">
                    Share of decided (90 %)
                  </th>
                  <th scope="col">0 to {Math.round(end * 100)} %</th>
                  <th scope="col" className="num">
                    per 1,000 shipped (90 %)
                  </th>
                  <th scope="col" className="num">
                    Contributed to another
                  </th>
                </tr>
              </thead>
              <tbody>
                {report.causes.map((line) => (
                  <tr key={line.cause}>
                    <th scope="row">
                      <span className={styles.cause}>
                        <CauseBalloon part={causeOf(line.cause)?.part} /> {line.cause} {nameOf(line.cause)}
                      </span>
                    </th>
                    <td className="num">{line.primary > 0 ? <a href={claimsAddress({ ...filter, cause: line.cause })}>{count(line.primary)}</a> : 0}</td>
                    <td className="num">
                      {percent(line.share.estimate)} ({shareLimits(line.share)})
                    </td>
                    <td>
                      <IntervalMark interval={line.share} end={end} />
                    </td>
                    <td className="num">{line.rate ? `${figure(line.rate.estimate)} (${tightLimits(line.rate)})` : "none shipped"}</td>
                    <td className="num">{line.contributing > 0 ? <a href={claimsAddress({ ...filter, cause: line.cause, role: "contributing" })}>{count(line.contributing)}</a> : 0}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        </section>
      ) : null}
      {report.revisions.length > 0 ? (
        <section className={styles.part}>
          <h2>By revision</h2>
          <section className="table-region" aria-label="By revision">
            <table className={styles.list}>
              <thead>
                <tr>
                  <th scope="col">Revision</th>
                  <th scope="col">Introduced</th>
                  <th scope="col">Change</th>
                  <th scope="col" className="num">
                    Shipped
                  </th>
                  <th scope="col" className="num">
                    Claims
                  </th>
                  <th scope="col" className="num">
                    per 1,000 (90 %)
                  </th>
                  <th scope="col">Most frequent cause</th>
                </tr>
              </thead>
              <tbody>
                {report.revisions.map(({ kit, revision, figures: { shipped, claims, rate }, leading }) => {
                  const selection = { ...filter, kit: kit.code, revision: revision.revision };
                  return (
                    <tr key={revision.id}>
                      <th scope="row">
                        <a href={cellAddress(selection)}>
                          {kit.code} rev {revision.revision}
                        </a>
                      </th>
                      <td className={styles.nowrap}>{revision.introducedOn}</td>
                      <td className={styles.wordy}>{revision.change}</td>
                      <td className="num">{count(shipped)}</td>
                      <td className="num">{claims > 0 ? <a href={claimsAddress(selection)}>{count(claims)}</a> : 0}</td>
                      <td className="num">{rate ? (claims < FEWEST_CLAIMS ? tightLimits(rate) : `${figure(rate.estimate)} (${tightLimits(rate)})`) : "none shipped"}</td>
                      <td>{leading ? <a href={claimsAddress({ ...selection, cause: leading.cause })}>{`${nameOf(leading.cause)}, ${leading.claims}`}</a> : "none decided"}</td>
                    </tr>
                  );
                })}
              </tbody>
            </table>
          </section>
        </section>
      ) : null}
      <p className="acts no-print">
        <a className="button tight plain" href={fileAddress("causes/cell", filter)}>
          These causes as CSV
        </a>
        <a className="button tight plain" href={fileAddress("causes/claims", filter)}>
          The claims behind them as CSV
        </a>
      </p>
    </>
  );
}

function CauseBalloon({ part }: { part: Parameters<typeof Balloon>[0]["part"] | undefined }) {
  return part ? <Balloon part={part} /> : null;
}

/** What the figures of the selection say, as the page's heading. */
function headline(name: string, { figures, causes }: LoadedSelection["report"], nameOf: (cause: string) => string): string {
  if (figures.shipped === 0 && figures.claims === 0) return `${name}: none shipped in this period`;
  if (figures.claims === 0) return `${name}: no claim so far`;
  const [leader, second] = causes;
  if (!leader || leader.primary === 0) return `${name}: ${claimsInWords(figures.claims)}, none decided yet`;
  if (second && second.primary === leader.primary) return `${name}: no single cause leads among ${count(figures.decided)} decided`;
  return `${name}: most often “${nameOf(leader.cause)}”, ${leader.primary} of ${count(figures.decided)} decided`;
}
