import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { OUTCOME_NAMES, OUTCOMES, type Outcome } from "@/lib/domain/reporting/outcomes";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { type FileTable, fileTable, rounded } from "@/lib/files/table";
import type { SelectionFileFilter } from "@/lib/inputs/report-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { costColumns } from "./cost-columns";
import { type LoadedSelection, loadCausesOfASelection } from "./load-causes-of-a-selection";
import { type Refusal, refuse } from "./refusal";

/** One table of the page about a cell, row or column, to go out as a file. */
export async function exportCausesOfASelection(actor: StaffActor, filter: SelectionFileFilter): Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const loaded = await loadCausesOfASelection(actor, filter);
  return loaded.ok ? { ok: true, table: TABLES[filter.table](loaded) } : loaded;
}

const RATE = { rate: "claims per 1000 shipped", rateLower: "per 1000 shipped, lower 90 % limit", rateUpper: "per 1000 shipped, upper 90 % limit" } as const;
const SERVICE_RATE = { service: "claims per 1000 unit-months in service", serviceLower: "per 1000 unit-months, lower 90 % limit", serviceUpper: "per 1000 unit-months, upper 90 % limit" } as const;
const EACH_OUTCOME = Object.fromEntries(OUTCOMES.map((outcome) => [outcome, OUTCOME_NAMES[outcome]])) as Record<Outcome, string>;

const rateOf = (rate: Interval | null) => ({ rate: rounded(rate?.estimate), rateLower: rounded(rate?.lower), rateUpper: rounded(rate?.upper) });
const serviceRateOf = (rate: Interval | null) => ({ service: rounded(rate?.estimate), serviceLower: rounded(rate?.lower), serviceUpper: rounded(rate?.upper) });

const TABLES: Readonly<Record<SelectionFileFilter["table"], (loaded: LoadedSelection) => FileTable>> = {
  causes: ({ report, causes }) => {
    const cost = costColumns(report.causes.map(({ costs }) => costs));
    return fileTable(
      {
        cause: "cause",
        name: "name",
        primary: "primary",
        decided: "of decided",
        share: "share",
        shareLower: "share, lower 90 % limit",
        shareUpper: "share, upper 90 % limit",
        cumulative: "cumulative share",
        shipped: "shipped",
        ...RATE,
        unitMonths: "unit-months in service, estimated",
        ...SERVICE_RATE,
        contributing: "contributed to another",
        probable: "probable among the undecided, not in any rate",
        ...cost.names,
      },
      report.causes.map(({ cause, primary, share, cumulativeShare, rate, serviceRate, contributing, probable, costs }) => ({
        cause,
        name: causes.find(({ code }) => code === cause)?.name ?? null,
        primary,
        decided: report.figures.decided,
        share: rounded(share?.estimate),
        shareLower: rounded(share?.lower),
        shareUpper: rounded(share?.upper),
        cumulative: rounded(cumulativeShare ?? undefined),
        shipped: rounded(report.figures.shipped),
        ...rateOf(rate),
        unitMonths: rounded(report.figures.unitMonths),
        ...serviceRateOf(serviceRate),
        contributing,
        probable: rounded(probable),
        ...cost.of(costs),
      })),
    );
  },
  revisions: ({ report, causes }) => {
    const cost = costColumns(report.revisions.map(({ figures }) => figures.costs));
    return fileTable(
      { kit: "kit", revision: "revision", introduced: "introduced", change: "change", shipped: "shipped", sharedOut: "of these shared out", claims: "claims", ...RATE, unitMonths: "unit-months in service, estimated", ...SERVICE_RATE, leading: "most frequent cause", ...cost.names },
      report.revisions.map(({ kit, revision, figures, leading }) => ({
        kit: kit.code,
        revision: revision.revision,
        introduced: revision.introducedOn,
        change: revision.change,
        shipped: rounded(figures.shipped),
        sharedOut: rounded(figures.sharedOut),
        claims: figures.claims,
        ...rateOf(figures.rate),
        unitMonths: rounded(figures.unitMonths),
        ...serviceRateOf(figures.serviceRate),
        leading: causes.find(({ code }) => code === leading?.cause)?.name ?? null,
        ...cost.of(figures.costs),
      })),
    );
  },
  months: ({ report }) =>
    fileTable(
      { month: "month of shipping", shipped: "shipped", sharedOut: "of these shared out", claims: "claims so far", ...RATE, unitMonths: "unit-months in service, estimated", ...SERVICE_RATE },
      report.months.map(({ month, figures }) => ({ month, shipped: rounded(figures.shipped), sharedOut: rounded(figures.sharedOut), claims: figures.claims, ...rateOf(figures.rate), unitMonths: rounded(figures.unitMonths), ...serviceRateOf(figures.serviceRate) })),
    ),
  ages: ({ breakdown }) =>
    fileTable(
      { month: "month in service, from 0", claims: "claims", unitMonths: "unit-months, estimated", ...SERVICE_RATE },
      (breakdown?.ages ?? []).map(({ monthInService, claims, unitMonths, rate }) => ({ month: monthInService, claims, unitMonths: rounded(unitMonths), ...serviceRateOf(rate) })),
    ),
  batches: ({ breakdown }) =>
    fileTable(
      { batch: "batch", shipped: "shipped", claims: "claims", ...RATE },
      (breakdown?.batches ?? []).map(({ batch, shipped, claims, rate }) => ({ batch: batch ?? "no unit", shipped: rounded(shipped), claims, ...rateOf(rate) })),
    ),
  fitters: ({ breakdown }) =>
    fileTable(
      { name: "fitter", place: "place", claims: "claims", ...EACH_OUTCOME },
      (breakdown?.fitters ?? []).map(({ name, place, claims, outcomes }) => ({ name: name ?? "not told", place, claims, ...outcomes })),
    ),
};
