import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadEditionInForce } from "@/lib/data/editions";
import { type ClaimBehind, findReportCatalogue, listClaimsBehind } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import type { ClaimsBehindFilter } from "@/lib/inputs/report-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";

export const CLAIMS_PER_PAGE = 100;

export interface ClaimsBehind {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
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
  const [catalogue, { causes }, { timeZone }] = await Promise.all([findReportCatalogue(), loadEditionInForce(), loadSettings()]);
  const unknown = findUnknown(catalogue, filter);
  if (unknown) return unknown;
  const { page, shipment, ...wanted } = filter;
  const slice = reach === "page" ? { skip: (page - 1) * CLAIMS_PER_PAGE, take: CLAIMS_PER_PAGE } : { skip: 0, take: MOST_IN_A_FILE };
  const found = await listClaimsBehind({ ...wanted, isUnmatched: shipment === "none", timeZone }, slice);
  return { ok: true, catalogue, causes, timeZone, ...found };
}

/** More rows than a spreadsheet takes. */
const MOST_IN_A_FILE = 1_000_000;
