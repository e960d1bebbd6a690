import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { fromMinor } from "@/lib/domain/claims/money";
import { shareClaimedBy } from "@/lib/domain/reporting/time-to-claim";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import { type FileTable, fileTable, rounded } from "@/lib/files/table";
import type { ForecastFilter, MonthsFilter, ToClaimFilter } from "@/lib/inputs/time-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { type ForecastLine, loadForecast } from "./load-forecast";
import { loadMonthsReport } from "./load-months-report";
import { loadTimeToClaim } from "./load-time-to-claim";
import { type Refusal, refuse } from "./refusal";

type Exported = Promise<{ ok: true; table: FileTable } | Refusal | UnknownInFilter>;

/** Claims by month, with the limits that chance leaves, to go out as a file. */
export async function exportMonthsReport(actor: StaffActor, filter: MonthsFilter): Exported {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const report = await loadMonthsReport(actor, filter);
  if (!report.ok) return report;
  const per = filter.by === "shipped" ? "claims per 1000 shipped" : "claims per 1000 unit-months, by age";
  const table = fileTable(
    {
      month: filter.by === "shipped" ? "month of shipping" : "month of filing",
      exposure: filter.by === "shipped" ? "shipped" : "unit-months, by age",
      claims: "claims so far",
      known: "known share of them",
      rate: per,
      rateLower: "lower 90 % limit",
      rateUpper: "upper 90 % limit",
      level: "level",
      lower: "chance leaves, from",
      upper: "chance leaves, to",
      outside: "outside",
      cumulative: "claims beyond the mean, added up",
      change: "a change begins",
      state: "state",
    },
    report.chart.months.map((month, place) => ({
      month: month.month,
      exposure: rounded(month.exposure),
      claims: month.claims,
      known: rounded(month.share),
      rate: rounded(month.rate?.estimate),
      rateLower: rounded(month.rate?.lower),
      rateUpper: rounded(month.rate?.upper),
      level: rounded(month.limits?.center),
      lower: rounded(month.limits?.lower),
      upper: rounded(month.limits?.upper),
      outside: month.outside,
      cumulative: rounded(month.cumulative ?? undefined),
      change: report.chart.changes.some(({ start }) => start === place) ? "yes" : null,
      state: month.kind,
    })),
  );
  return { ok: true, table };
}

const PARTS = { estimate: "", lower: ", lower 90 % limit", upper: ", upper 90 % limit" } as const;

/** Shares that have claimed by a few ages, each with its limits. */
function claimedColumns<T>(of: (month: number, part: keyof Interval) => T): Record<`${number} ${keyof Interval}`, T> {
  const parts = Object.keys(PARTS) as (keyof Interval)[];
  return Object.fromEntries([3, 6, 12, 24].flatMap((month) => parts.map((part) => [`${month} ${part}`, of(month, part)])));
}

/** Time to claim of a selection and of each kit or cause in it, to go out as a file. */
export async function exportTimeToClaim(actor: StaffActor, filter: ToClaimFilter): Exported {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const report = await loadTimeToClaim(actor, filter);
  if (!report.ok) return report;
  const table = fileTable(
    {
      of: filter.each,
      units: "units",
      notFitted: "not fitted yet, by the usual delay",
      claims: "claims",
      unitMonths: "unit-months in service, estimated",
      ...claimedColumns((month, part) => `share with a claim by month ${month}${PARTS[part]}`),
      shape: "Weibull shape",
      shapeLower: "shape, lower 90 % limit",
      shapeUpper: "shape, upper 90 % limit",
      scale: "Weibull scale in months",
      verdict: "says",
      bound: "without a claim: per 1000 unit-months at most, 95 % sure",
    },
    [{ code: "all", life: report.whole }, ...report.parts].map(({ code, life }) => {
      const { fit } = life;
      return {
        of: code,
        units: rounded(life.units),
        notFitted: rounded(life.notFittedYet),
        claims: life.claims,
        unitMonths: rounded(life.unitMonths),
        ...claimedColumns((month, part) => rounded(shareClaimedBy(life, month)?.[part])),
        shape: fit.kind === "fitted" ? rounded(fit.shape.estimate) : null,
        shapeLower: fit.kind === "fitted" ? rounded(fit.shape.lower) : null,
        shapeUpper: fit.kind === "fitted" ? rounded(fit.shape.upper) : null,
        scale: fit.kind === "fitted" ? rounded(fit.scale.estimate) : null,
        verdict: life.verdict,
        bound: rounded(life.upperBound ?? undefined),
      };
    }),
  );
  return { ok: true, table };
}

/** Claims to come, by month or by kit, to go out as a file. */
export async function exportForecast(actor: StaffActor, filter: ForecastFilter): Exported {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const report = await loadForecast(actor, filter);
  if (!report.ok) return report;
  return { ok: true, table: filter.table === "months" ? monthsTable(report.whole) : kitsTable(report.kits) };
}

function monthsTable(whole: ForecastLine | null): FileTable {
  return fileTable(
    { month: "month", claims: "claims in it", upTo: "claims up to its end", lower: "lower 90 % limit", upper: "upper 90 % limit", reach: "at least" },
    (whole?.forecast.months ?? []).map(({ month, claims, upTo, isAtLeast }) => ({ month, claims: rounded(claims), upTo: rounded(upTo.estimate), lower: rounded(upTo.lower), upper: rounded(upTo.upper), reach: isAtLeast ? "yes" : "no" })),
  );
}

/** One line for each currency of a kit, or one without where nothing has cost anything. */
function kitsTable(kits: readonly ({ code: string } & ForecastLine)[]): FileTable {
  return fileTable(
    {
      kit: "kit",
      units: "in the field",
      claims: "claims so far",
      toCome: "claims to come",
      lower: "lower 90 % limit",
      upper: "upper 90 % limit",
      currency: "currency",
      cost: "cost to come",
      costLower: "cost, lower 90 % limit",
      costUpper: "cost, upper 90 % limit",
      mean: "cost of a claim",
      deviation: "its standard deviation",
      paid: "claims that cost anything",
      ended: "of ended",
    },
    kits.flatMap(({ code, forecast, cost }) => {
      const upTo = forecast.months.at(-1)?.upTo;
      const line = { kit: code, units: rounded(forecast.units), claims: forecast.claims, toCome: rounded(upTo?.estimate), lower: rounded(upTo?.lower), upper: rounded(upTo?.upper) };
      return (cost.length > 0 ? cost : [null]).map((own) => ({
        ...line,
        currency: own?.perClaim.currency ?? null,
        cost: own && rounded(fromMinor(own.expected.estimate, own.perClaim.currency)),
        costLower: own && rounded(fromMinor(own.expected.lower, own.perClaim.currency)),
        costUpper: own && rounded(fromMinor(own.expected.upper, own.perClaim.currency)),
        mean: own && rounded(fromMinor(own.perClaim.meanMinor, own.perClaim.currency)),
        deviation: own && rounded(fromMinor(own.perClaim.deviationMinor, own.perClaim.currency)),
        paid: own?.perClaim.paid ?? null,
        ended: own?.perClaim.ended ?? null,
      }));
    }),
  );
}
