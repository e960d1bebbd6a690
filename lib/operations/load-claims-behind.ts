import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { type ClaimBehind, listClaimsBehind } from "@/lib/data/claims-behind";
import { findFitter, findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { revisionsOf } from "@/lib/domain/reporting/causes-of-a-selection";
import type { ClaimsBehindFilter } from "@/lib/inputs/report-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";

export const CLAIMS_PER_PAGE = 100;

export interface ClaimsBehind {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  fitter: { id: string; name: string; place: string } | null;
  timeZone: string;
  total: number;
  claims: readonly ClaimBehind[];
}

/**
 * The claims behind a figure of the report, newest first.
 *
 * @param reach one page as the filter names it, or all of them for a file
 */
export async function loadClaimsBehind(actor: StaffActor, filter: ClaimsBehindFilter, reach: "page" | "all" = "page"): Promise<ClaimsBehind | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const [catalogue, causes, { timeZone }, fitter] = await Promise.all([
    findReportCatalogue(),
    loadCausesEverInForce(),
    loadSettings(),
    filter.fitter === undefined ? null : findFitter(filter.fitter),
  ]);
  const unknown = findUnknown({ catalogue, causes, fitter }, filter);
  if (unknown) return unknown;
  const { page, shipment, ...narrowing } = filter;
  const wanted = { ...narrowing, kitRevisionIds: filter.kit === undefined && filter.revision === undefined ? undefined : revisionsOf(catalogue, filter).map(({ revision }) => revision.id) };
  const slice = reach === "page" ? { skip: (page - 1) * CLAIMS_PER_PAGE, take: CLAIMS_PER_PAGE } : { skip: 0, take: MOST_IN_A_FILE };
  const found = await listClaimsBehind({ ...wanted, isUnmatched: shipment === "none", timeZone }, slice);
  return { ok: true, catalogue, causes, fitter, timeZone, ...found };
}

/** More rows than a spreadsheet takes. */
const MOST_IN_A_FILE = 1_000_000;
