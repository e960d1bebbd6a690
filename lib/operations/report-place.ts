import "server-only";
import { loadCausesEverInForce } from "@/lib/data/editions";
import type { Narrowing } from "@/lib/data/report-lines";
import { findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { revisionsOf } from "@/lib/domain/reporting/causes-of-a-selection";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { reportClock } from "./report-clock";

export interface ReportPlace {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  wanted: Narrowing;
  today: string;
}

/** Earlier than anything was shipped. */
export const LONG_AGO = "2000-01";

/** What a filter of kit, vehicle, batch and verdict leads to, or the first field that names what is not there. Part of the report operations. */
export async function findReportPlace({ from, to, kit, revision, vehicle, batch, cause, outcome, origin }: Omit<Narrowing, "kitRevisionIds"> & { kit?: string | undefined; revision?: string | undefined }, now: Date): Promise<ReportPlace | UnknownInFilter> {
  const [catalogue, causes, { timeZone }] = await Promise.all([findReportCatalogue(), loadCausesEverInForce(), loadSettings()]);
  const unknown = findUnknown({ catalogue, causes, fitter: null }, { kit, revision, vehicle, cause });
  if (unknown) return unknown;
  const kitRevisionIds = kit === undefined && revision === undefined ? undefined : revisionsOf(catalogue, { kit, revision }).map((known) => known.revision.id);
  return { ok: true, catalogue, causes, wanted: { from, to, kitRevisionIds, vehicle, batch, cause, outcome, origin }, today: reportClock(now, timeZone).today };
}
