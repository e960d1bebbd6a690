import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { countByFiling, countShipped } from "@/lib/data/report-times";
import type { Cause } from "@/lib/domain/diagnosis/knowledge";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { type ControlChart, controlChart } from "@/lib/domain/reporting/control-chart";
import { type FilingDelay, filingDelay } from "@/lib/domain/reporting/control-chart-delay";
import { ageWeights, monthsOfFiling, monthsOfShipping, type TimesOfSelection } from "@/lib/domain/reporting/control-chart-months";
import { sumBy, unitsOfSelection } from "@/lib/domain/reporting/filed-claims";
import type { Month } from "@/lib/domain/reporting/month";
import type { MonthsFilter } from "@/lib/inputs/time-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";
import { findReportPlace, LONG_AGO } from "./report-place";

export interface MonthsReport {
  ok: true;
  catalogue: ReportCatalogue;
  causes: readonly Cause[];
  chart: ControlChart;
  /** How claims come with time since shipping, told by these claims or, where they are few, by all. */
  pattern: { by: "shipped"; isOfAll: boolean; delay: FilingDelay | null } | { by: "filed"; isOfAll: boolean; weights: readonly number[] };
  /** Units whose vehicle is not known, shared out to this one. */
  sharedOut: number;
  today: string;
}

/** With fewer claims of its own a selection is taken to claim with time as all units do (judgement). */
const ENOUGH_FOR_PATTERN = 100;

/** Claims by month of shipping or of filing, against what chance leaves. */
export async function loadMonthsReport(actor: StaffActor, filter: MonthsFilter, now: Date = new Date()): Promise<MonthsReport | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const place = await findReportPlace(filter, now);
  if (!place.ok) return place;
  const { catalogue, causes, today } = place;
  const thisMonth: Month = today.slice(0, 7);
  const wanted = { ...place.wanted, from: LONG_AGO, to: thisMonth };
  const anyVerdict = { ...wanted, cause: undefined, outcome: undefined, origin: undefined };
  const isByVerdict = wanted.cause !== undefined || wanted.origin !== undefined || (wanted.outcome !== undefined && wanted.outcome !== "undecided" && wanted.outcome !== "ended");
  const [shipped, claims, all, undecided] = await Promise.all([
    countShipped(wanted),
    countByFiling(wanted, "all"),
    isByVerdict ? countByFiling(anyVerdict, "all") : [],
    isByVerdict ? countByFiling({ ...anyVerdict, outcome: "undecided" }, "all") : [],
  ]);
  const selected = unitsOfSelection(shipped, wanted.vehicle);
  const units = sumBy(selected, ({ month }) => month, (line) => line.units);
  const times = { units, claims, verdicts: isByVerdict ? { all, undecided } : null, today };
  const pattern = await patternOf(times, filter.by);
  return {
    ok: true,
    catalogue,
    causes,
    chart: controlChart(pattern.by === "shipped" ? monthsOfShipping(times, pattern.delay, filter) : monthsOfFiling(times, pattern.weights, filter)),
    pattern,
    sharedOut: selected.reduce((sum, line) => sum + line.sharedOut, 0),
    today,
  };
}

/** Of these claims, or where they are few of all there are. */
async function patternOf(own: TimesOfSelection, by: MonthsFilter["by"]): Promise<MonthsReport["pattern"]> {
  const isOfAll = own.claims.reduce((sum, { claims }) => sum + claims, 0) < ENOUGH_FOR_PATTERN;
  const everything = { from: LONG_AGO, to: own.today.slice(0, 7) };
  const claims = isOfAll ? await countByFiling(everything, "all") : own.claims;
  if (by === "shipped") return { by, isOfAll, delay: filingDelay(claims, own.today) };
  const units = isOfAll ? sumBy(await countShipped(everything), ({ month }) => month, (line) => line.units) : own.units;
  return { by, isOfAll, weights: ageWeights({ units, claims, today: own.today }) };
}
