import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { countCauses, countUnmatched, countWaitingChanges, findCohorts, findFitter, findReportCatalogue } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { type CausesTable, type ComparedCell, causesByKitAndVehicle, comparedCells } from "@/lib/domain/reporting/causes-by-kit-and-vehicle";
import { leadingCause } from "@/lib/domain/reporting/causes-of-a-selection";
import { claimsAlone } from "@/lib/domain/reporting/cohorts";
import { looksHigh } from "@/lib/domain/reporting/comparison";
import type { CausesFilter } from "@/lib/inputs/report-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";
import { reportClock } from "./report-clock";

export interface CausesReport {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  /** The fitter asked for. */
  fitter: { id: string; name: string; place: string } | null;
  table: CausesTable;
  /** Cells with enough claims to be compared, the most striking first. */
  compared: readonly ComparedCell[];
  /** The most striking cell where it looks high, with the cause that leads there. */
  outstanding: { cell: ComparedCell; leading: { cause: string; claims: number } | null } | null;
  /** Claims filed in the period that name no shipment and so stand in no rate. */
  unmatched: number;
  /** Changes that are not counted yet. */
  waiting: number;
  /** The day up to which units are counted in service. */
  today: string;
}

/** Causes by kit and vehicle over a period of shipping. */
export async function loadCausesReport(actor: StaffActor, filter: CausesFilter, now: Date = new Date()): Promise<CausesReport | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const { kit: _kit, revision: _revision, vehicle: _vehicle, ...everywhere } = filter;
  const [catalogue, causes, settings, fitter, cohorts, waiting] = await Promise.all([
    findReportCatalogue(),
    loadCausesEverInForce(),
    loadSettings(),
    filter.fitter === undefined ? null : findFitter(filter.fitter),
    findCohorts(everywhere),
    countWaitingChanges(),
  ]);
  const unknown = findUnknown({ catalogue, causes, fitter }, filter);
  if (unknown) return unknown;
  const unmatched = await countUnmatched(filter, settings.timeZone);
  const clock = reportClock(now, settings.timeZone, filter);
  const table = causesByKitAndVehicle({ catalogue, cohorts: filter.fitter === undefined ? cohorts : claimsAlone(cohorts), clock }, filter);
  const compared = comparedCells(table);
  const [first] = compared;
  const report = { ok: true, catalogue, causes, fitter, table, compared, unmatched, waiting, today: clock.today } as const;
  if (!first || !looksHigh(first.comparison)) return { ...report, outstanding: null };
  const revisions = first.row.revision ? [first.row.revision] : first.row.kit.revisions;
  const behind = await countCauses({ ...everywhere, kitRevisionIds: revisions.map(({ id }) => id), vehicle: first.vehicle?.id });
  return { ...report, outstanding: { cell: first, leading: leadingCause(behind) } };
}
