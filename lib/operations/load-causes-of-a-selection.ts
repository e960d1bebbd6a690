import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { loadCausesEverInForce } from "@/lib/data/editions";
import { breakDownClaims, countCauses, countShippedByBatch, type FitterCount, findCohorts, findFitter, findReportCatalogue, sumCosts } from "@/lib/data/reports";
import { loadSettings } from "@/lib/data/settings";
import { listStandingSignals, type SignalKept } from "@/lib/data/signals";
import type { Origin } from "@/lib/domain/diagnosis/attributions";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import { type AgeLine, type BatchLine, linesByAge, linesByBatch } from "@/lib/domain/reporting/breakdowns";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { causesOfASelection, revisionsOf, type SelectionReport } from "@/lib/domain/reporting/causes-of-a-selection";
import { claimsAlone } from "@/lib/domain/reporting/cohorts";
import { isAbout } from "@/lib/domain/reporting/signals-about";
import type { SelectionFilter } from "@/lib/inputs/report-filter";
import { findUnknown, type UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";
import { reportClock } from "./report-clock";

/** What only the claims themselves tell, or the units' batches. */
export interface SelectionBreakdown {
  batches: readonly BatchLine[];
  ages: readonly AgeLine[];
  /** Counts and mix alone: what else a fitter has fitted is not known. */
  fitters: readonly FitterCount[];
  origins: readonly { origin: Origin; claims: number }[];
}

export interface LoadedSelection {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  fitter: { id: string; name: string; place: string } | null;
  report: SelectionReport;
  /** Null where neither a kit, a vehicle, a batch nor a fitter is chosen: it would count every claim there is. */
  breakdown: SelectionBreakdown | null;
  /** What stands out of it beyond chance, the surest first, but for what somebody marked as not real. */
  signals: readonly SignalKept[];
  today: string;
}

export const MOST_FITTERS = 20;

/** The causes behind one cell, row or column of the report. */
export async function loadCausesOfASelection(actor: StaffActor, filter: SelectionFilter, now: Date = new Date()): Promise<LoadedSelection | Refusal | UnknownInFilter> {
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
  const isNarrow = [filter.kit, filter.vehicle, filter.batch, filter.fitter].some((chosen) => chosen !== undefined);
  const wanted = { ...filter, kitRevisionIds: filter.kit === undefined && filter.revision === undefined ? undefined : revisionsOf(catalogue, filter).map(({ revision }) => revision.id) };
  const [found, counts, costs, broken, shippedByBatch, signals] = await Promise.all([
    findCohorts(wanted),
    countCauses(wanted),
    sumCosts(wanted),
    isNarrow ? breakDownClaims(wanted, MOST_FITTERS) : null,
    isNarrow && filter.fitter === undefined ? countShippedByBatch(wanted) : [],
    isNarrow ? listStandingSignals() : [],
  ]);
  const cohorts = filter.fitter === undefined ? found : claimsAlone(found);
  const clock = reportClock(now, timeZone, filter);
  const place = { catalogue, cohorts, selection: filter };
  return {
    ok: true,
    catalogue,
    causes,
    fitter,
    report: causesOfASelection({ ...place, causes: counts, costs, clock }),
    breakdown: broken && {
      batches: linesByBatch(place, shippedByBatch, broken.byBatch),
      ages: linesByAge(place, broken.byMonthInService, clock),
      fitters: broken.byFitter,
      origins: broken.byOrigin,
    },
    signals: signals.filter(({ act, cause, scope }) => act !== "not_real" && (filter.cause === undefined || filter.cause === cause) && isAbout(scope, filter, catalogue)),
    today: clock.today,
  };
}
