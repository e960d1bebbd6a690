import type { Metadata } from "next";
import { forbidden } from "next/navigation";
import { ATTRIBUTION_WORDS } from "@/app/queue/words";
import { requireStaff } from "@/lib/access/staff";
import { REMEDY_NAMES } from "@/lib/domain/claims/remedies";
import { STAGE_NAMES } from "@/lib/domain/claims/stages";
import { periodInWords } from "@/lib/domain/reporting/month";
import { type DeskClaimsFilter, deskClaimsFilterSchema } from "@/lib/inputs/desk-filter";
import { firstValues, type QueryParameters } from "@/lib/inputs/query";
import { readFilter } from "@/lib/inputs/report-filter";
import { type LoadedDeskClaims, loadDeskClaims } from "@/lib/operations/load-desk-quality";
import { address } from "../../addresses";
import { claimsInWords } from "../../figures-in-words";
import { unknownInWords, usualPeriod } from "../../read-address";
import { RefusedFilter } from "../../refused-filter";
import styles from "../../reports.module.css";
import { selectionName } from "../../selection-name";
import { deskAddress, deskClaimsAddress, deskFileAddress } from "../desk-addresses";
import { FIGURE_WORDS, workingHoursInWords } from "../desk-words";

export const metadata: Metadata = { title: "Claims behind a figure of the desk" };

const PER_PAGE = 100;

export default async function DeskClaimsPage({ searchParams }: { searchParams: Promise<QueryParameters> }) {
  const query = await searchParams;
  const actor = await requireStaff(address("/reports/desk/claims", firstValues(query)));
  const read = readFilter(deskClaimsFilterSchema, query, usualPeriod());
  if (!read.ok) return <RefusedFilter errors={read.errors} />;
  const { page, ...wanted } = read.filter;
  const loaded = await loadDeskClaims(actor, wanted, { skip: (page - 1) * PER_PAGE, take: PER_PAGE });
  if (loaded.ok) return <Claims filter={read.filter} loaded={loaded} />;
  if (loaded.reason === "not-allowed") forbidden();
  return <RefusedFilter errors={unknownInWords(loaded)} />;
}

function Claims({ filter, loaded }: { filter: DeskClaimsFilter; loaded: LoadedDeskClaims }) {
  const { catalogue, causes, timeZone, total, rows } = loaded;
  const { figure, first, second, page, ...narrowing } = filter;
  const pages = Math.max(1, Math.ceil(total / PER_PAGE));
  const day = new Intl.DateTimeFormat("en-CA", { timeZone, dateStyle: "short" });
  const nameOf = (code: string | null) => (code === null ? "" : `${code} ${causes.find((cause) => cause.code === code)?.name ?? ""}`);
  const cell = [first && `the verdict lies with ${ATTRIBUTION_WORDS[first]}`, second && `the other with ${ATTRIBUTION_WORDS[second]}`].filter(Boolean).join(", ");
  return (
    <>
      <p className="small letter soft">
        <a href={deskAddress(narrowing)}>Quality of the desk</a> / Claims
      </p>
      <h1>
        {total === 0 ? "No claim" : claimsInWords(total)} {FIGURE_WORDS[figure]}
        {cell ? `; ${cell}` : ""}
      </h1>
      <p>
        Filed {periodInWords(filter)}, {selectionName(catalogue, filter)}.
      </p>
      {rows.length > 0 ? (
        <section className="table-region" aria-label="Claims">
          <table className={styles.list}>
            <thead>
              <tr>
                <th scope="col">Claim</th>
                <th scope="col">Filed</th>
                <th scope="col">Kit and vehicle</th>
                <th scope="col" className="num">
                  To first answer, working
                </th>
                <th scope="col" className="num">
                  To verdict, working
                </th>
                <th scope="col">Verdict</th>
                <th scope="col">Ranking put first</th>
                <th scope="col">Second opinion</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.id}>
                  <th scope="row" className={styles.nowrap}>
                    <a href={`/queue/${row.id}`}>{row.reference}</a>
                  </th>
                  <td className={styles.nowrap}>{day.format(row.filedAt)}</td>
                  <td className={styles.wordy}>
                    {row.kit ?? "kit not known"}, {row.vehicle || "vehicle not known"}
                  </td>
                  <td className="num">{row.hoursToAnswer === null ? "" : workingHoursInWords(row.hoursToAnswer)}</td>
                  <td className="num">{row.hoursToVerdict === null ? "" : workingHoursInWords(row.hoursToVerdict)}</td>
                  <td className={styles.wordy}>{row.cause && row.attribution && row.remedy ? `${nameOf(row.cause)}; ${ATTRIBUTION_WORDS[row.attribution]}; ${REMEDY_NAMES[row.remedy]}` : STAGE_NAMES[row.stage]}</td>
                  <td className={styles.wordy}>{nameOf(row.leader)}</td>
                  <td className={styles.wordy}>{row.secondCause && row.secondAttribution ? `${nameOf(row.secondCause)}; ${ATTRIBUTION_WORDS[row.secondAttribution]}` : ""}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : null}
      {page > pages ? <p>This list ends with page {pages}.</p> : null}
      <p className="acts no-print">
        {page > 1 ? (
          <a className="button tight plain" href={deskClaimsAddress(figure, { ...filter, page: Math.min(page - 1, pages) })}>
            Newer claims
          </a>
        ) : null}
        {page < pages ? (
          <a className="button tight plain" href={deskClaimsAddress(figure, { ...filter, page: page + 1 })}>
            Older claims
          </a>
        ) : null}
        <a className="button tight plain" href={deskFileAddress("claims", { ...filter, page: undefined })}>
          These claims as CSV
        </a>
        <a className="button tight plain" href={deskFileAddress("claims", { ...filter, page: undefined, format: "xlsx" })}>
          as a workbook
        </a>
      </p>
    </>
  );
}
