import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { percent } from "@/app/_components/scale";
import { requireStaff } from "@/lib/access/staff";
import { REMEDY_NAMES } from "@/lib/domain/claims/remedies";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { monthInWords, periodInWords } from "@/lib/domain/reporting/month";
import { OUTCOME_NAMES } from "@/lib/domain/reporting/outcomes";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { type ClaimsBehindFilter, claimsBehindFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { CLAIMS_PER_PAGE, type ClaimsBehind, loadClaimsBehind } from "@/lib/operations/load-claims-behind";
import { carried, causesAddress, cellAddress, claimsAddress, fileAddress } from "../../addresses";
import { claimsInWords, costsInWords } from "../../figures-in-words";
import { narrowingInWords, ORIGIN_NAMES } from "../../narrowing-in-words";
import { unknownInWords, usualPeriod } from "../../read-address";
import { RefusedFilter } from "../../refused-filter";
import styles from "../../reports.module.css";
import { selectionName } from "../../selection-name";

export const metadata: Metadata = { title: "Claims behind a figure" };

export default async function ClaimsBehindPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(claimsAddress(firstValues(query)));
  const read = readFilter(claimsBehindFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const behind = await loadClaimsBehind(actor, read.filter);
  if (behind.ok) return <Claims filter={read.filter} behind={behind} />;
  if (behind.reason === "not-allowed") forbidden();
  return <RefusedFilter errors={unknownInWords(behind)} />;
}

function Claims({ filter, behind }: { filter: ClaimsBehindFilter; behind: ClaimsBehind }) {
  const { catalogue, causes, timeZone, total, claims } = behind;
  const { kit, revision, vehicle, role, shipment, filed, page } = filter;
  const nameOf = (code: string) => causes.find((known) => known.code === code)?.name ?? code;
  const day = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  const narrowed = [
    shipment ? `Filed ${periodInWords(filter)}, not matched with a shipment` : `About what was shipped ${periodInWords(filter)}`,
    filed && `filed in ${monthInWords(filed)}`,
    narrowingInWords(filter, behind, role),
  ].filter(Boolean);
  const narrowing = { ...carried({ ...filter }), outcome: undefined };
  const pages = Math.max(1, Math.ceil(total / CLAIMS_PER_PAGE));
  return (
    <>
      <p className="small letter soft">
        <a href={causesAddress(narrowing)}>Causes by kit and vehicle</a> / <a href={cellAddress({ ...narrowing, kit, revision, vehicle })}>{selectionName(catalogue, filter)}</a> / Claims
      </p>
      <h1>
        {total === 0 ? "No claim" : claimsInWords(total)}: {selectionName(catalogue, filter)}
      </h1>
      <p>{narrowed.join("; ")}.</p>
      {claims.length > 0 ? (
        <section className="table-region" aria-label="Claims">
          <table className={styles.list}>
            <thead>
              <tr>
                <th scope="col">Claim</th>
                <th scope="col">Filed</th>
                <th scope="col">Photos</th>
                <th scope="col">Kit and vehicle</th>
                <th scope="col">Cause</th>
                <th scope="col">Laid to</th>
                <th scope="col">Origin</th>
                <th scope="col">Remedy</th>
                <th scope="col" className="num">
                  Cost
                </th>
              </tr>
            </thead>
            <tbody>
              {claims.map((claim) => (
                <tr key={claim.id}>
                  <th scope="row" className={styles.nowrap}>
                    <a href={`/queue/${claim.id}`}>{claim.reference}</a>
                  </th>
                  <td className={styles.nowrap}>{day.format(claim.filedAt)}</td>
                  <td className={styles.nowrap}>
                    {claim.photoIds.map((photoId, index) => (
                      <a key={photoId} href={`/queue/${claim.id}/photos/${photoId}`}>
                        <img className={styles.photo} src={`/queue/${claim.id}/photos/${photoId}?size=small`} alt={`${claim.reference}, ${index + 1} of ${claim.photoIds.length}`} loading="lazy" width="56" height="42" />
                      </a>
                    ))}
                  </td>
                  <td className={styles.wordy}>
                    {claim.kit ? `${claim.kit} rev ${claim.revision}` : "kit not known"}, {claim.vehicle || "vehicle not known"}
                    {claim.monthInService === null ? null : <div className="small soft">{claim.monthInService === 0 ? "in its first month" : `after ${claim.monthInService} ${claim.monthInService === 1 ? "month" : "months"}`}</div>}
                  </td>
                  <td className={styles.wordy}>
                    {claim.cause ? `${claim.cause} ${nameOf(claim.cause)}` : STAGE_NAMES[claim.stage]}
                    <Probable claim={claim} nameOf={nameOf} />
                    {claim.contributing.length > 0 ? <span className="soft">, with {claim.contributing.map(nameOf).join(", ")}</span> : null}
                  </td>
                  <td>{claim.attribution ? OUTCOME_NAMES[claim.attribution] : ""}</td>
                  <td className={styles.nowrap}>{claim.origin ? ORIGIN_NAMES[claim.origin] : ""}</td>
                  <td>{claim.remedy ? REMEDY_NAMES[claim.remedy] : ""}</td>
                  <td className="num">{costsInWords(claim.costs, "")}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : null}
      {total > 0 && claims.length === 0 ? <p>This list ends with page {pages}.</p> : null}
      <p className="acts no-print">
        {page > 1 ? (
          <a className="button tight plain" href={claimsAddress({ ...filter, page: Math.min(page - 1, pages) })}>
            Newer claims
          </a>
        ) : null}
        {page < pages ? (
          <a className="button tight plain" href={claimsAddress({ ...filter, page: page + 1 })}>
            Older claims
          </a>
        ) : null}
        {total > 0 ? (
          <>
            <a className="button tight plain" href={fileAddress("causes/claims", { ...filter, page: undefined })}>
              All {claimsInWords(total)} as CSV
            </a>
            <a className="button tight plain" href={fileAddress("causes/claims", { ...filter, page: undefined, format: "xlsx" })}>
              as a workbook
            </a>
          </>
        ) : null}
      </p>
    </>
  );
}

/** What an undecided claim most probably is, marked as no verdict. */
function Probable({ claim: { probable }, nameOf }: { claim: ClaimsBehind["claims"][number]; nameOf: (code: string) => string }) {
  const [first] = probable;
  if (!first) return null;
  return (
    <div className={`small ${styles.probable}`}>
      probably {nameOf(first.cause)}, {percent(first.millionths / 1_000_000)}
    </div>
  );
}
