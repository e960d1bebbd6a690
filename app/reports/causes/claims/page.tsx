import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { requireStaff } from "@/lib/access/staff";
import { REMEDY_NAMES } from "@/lib/domain/claims/remedies";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { periodInWords } from "@/lib/domain/reporting/month";
import { OUTCOME_NAMES } from "@/lib/domain/reporting/outcomes";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { type ClaimsBehindFilter, claimsBehindFilterSchema, readFilter } from "@/lib/inputs/report-filter";
import { CLAIMS_PER_PAGE, type ClaimsBehind, loadClaimsBehind } from "@/lib/operations/load-claims-behind";
import { causesAddress, cellAddress, claimsAddress, fileAddress } from "../../addresses";
import { claimsInWords, money } from "../../figures-in-words";
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

const ORIGIN_NAMES = { fitter: "fitter", kit: "kit", not_known: "not known" } as const;

function Claims({ filter, behind: { catalogue, causes, timeZone, total, claims } }: { filter: ClaimsBehindFilter; behind: ClaimsBehind }) {
  const { from, to, kit, revision, vehicle, cause, role, outcome, shipment, page } = filter;
  const nameOf = (code: string) => causes.find((known) => known.code === code)?.name ?? code;
  const day = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  const narrowed = [
    shipment ? `Filed ${periodInWords(filter)}, not matched with a shipment` : `About what was shipped ${periodInWords(filter)}`,
    cause ? `${role === "primary" ? "laid to" : "with a contribution from"} ${cause} ${nameOf(cause)}` : null,
    outcome ? (outcome === "decided" ? "decided" : OUTCOME_NAMES[outcome]) : null,
  ].filter(Boolean);
  const pages = Math.max(1, Math.ceil(total / CLAIMS_PER_PAGE));
  return (
    <>
      <p className="small letter soft">
        <a href={causesAddress({ from, to })}>Causes by kit and vehicle</a> / <a href={cellAddress({ from, to, kit, revision, vehicle })}>{selectionName(catalogue, filter)}</a> / Claims
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
                  <td className={styles.wordy}>
                    {claim.kit ? `${claim.kit} rev ${claim.revision}` : "kit not known"}, {claim.vehicle || "vehicle not known"}
                  </td>
                  <td className={styles.wordy}>
                    {claim.cause ? `${claim.cause} ${nameOf(claim.cause)}` : STAGE_NAMES[claim.stage]}
                    {claim.contributing.length > 0 ? <span className="soft">, with {claim.contributing.map(nameOf).join(", ")}</span> : null}
                  </td>
                  <td>{claim.attribution ? OUTCOME_NAMES[claim.attribution] : ""}</td>
                  <td className={styles.nowrap}>{claim.origin ? ORIGIN_NAMES[claim.origin] : ""}</td>
                  <td>{claim.remedy ? REMEDY_NAMES[claim.remedy] : ""}</td>
                  <td className="num">{claim.costs.map(money).join(", ")}</td>
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
          <a className="button tight plain" href={fileAddress("causes/claims", { ...filter, page: undefined })}>
            All {claimsInWords(total)} as CSV
          </a>
        ) : null}
      </p>
    </>
  );
}
