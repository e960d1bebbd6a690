import "server-only";
import type { StaffActor } from "@/lib/access/actors";
import { countByFiling, countEnded, countShipped, type FiledCount, sumCostSpread } from "@/lib/data/report-times";
import type { ReportCatalogue } from "@/lib/domain/reporting/catalogue";
import { type ClaimsForecast, type CostPerClaim, type CostSpread, costPerClaim, FEWEST_ENDED, forecastClaims, forecastCost } from "@/lib/domain/reporting/forecast";
import { sumBy, type UnitsShipped, unitsOfSelection } from "@/lib/domain/reporting/filed-claims";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";
import type { ForecastFilter } from "@/lib/inputs/time-filter";
import type { UnknownInFilter } from "./check-report-filter";
import { type Refusal, refuse } from "./refusal";
import { findReportPlace } from "./report-place";

/** What is to come within the months asked for, and what it rests on. */
export interface ForecastLine {
  forecast: ClaimsForecast;
  cost: readonly { perClaim: CostPerClaim; expected: Interval }[];
  /** Too few of its own claims have ended: a claim is taken to cost what it does over the whole selection. */
  isCostOfAll: boolean;
}

export interface ForecastReport {
  ok: true;
  catalogue: ReportCatalogue;
  /** Null where nothing was shipped before this month. */
  whole: ForecastLine | null;
  /** By kit, most claims to come first. */
  kits: readonly ({ code: string } & ForecastLine)[];
  sharedOut: number;
  today: string;
}

/** Claims still to come of what was shipped, and what they will cost. */
export async function loadForecast(actor: StaffActor, filter: ForecastFilter, now: Date = new Date()): Promise<ForecastReport | Refusal | UnknownInFilter> {
  const refused = await refuse(actor, "see reports");
  if (refused) return refused;
  const place = await findReportPlace(filter, now);
  if (!place.ok) return place;
  const { catalogue, wanted, today } = place;
  const [shipped, claims, spreads, ended] = await Promise.all([countShipped(wanted), countByFiling(wanted, "kit"), sumCostSpread(wanted), countEnded(wanted)]);
  const selected = unitsOfSelection(shipped, wanted.vehicle);
  const endedOf = (lines: typeof ended) => lines.reduce((sum, line) => sum + line.ended, 0);
  const forAll = costPerClaim(addedUp(spreads), endedOf(ended));

  const lineOf = (units: readonly UnitsShipped[], filed: readonly FiledCount[], own: readonly CostSpread[], ownEnded: number): ForecastLine | null => {
    const forecast = forecastClaims({ units: sumBy(units, ({ month }) => month, (line) => line.units), claims: filed, today, horizonMonths: filter.months });
    const last = forecast?.months.at(-1);
    if (!forecast || !last) return null;
    const isCostOfAll = ownEnded < FEWEST_ENDED;
    const perClaim = isCostOfAll ? forAll : costPerClaim(addedUp(own), ownEnded);
    return { forecast, cost: perClaim.map((of) => ({ perClaim: of, expected: forecastCost(last.upTo, of) })), isCostOfAll };
  };
  const kits = catalogue.kits.flatMap(({ code, revisions }) => {
    const ids = new Set(revisions.map(({ id }) => id));
    const ofKit = ({ kit }: { kit: string | null }) => kit === code;
    const line = lineOf(selected.filter(({ kitRevisionId }) => ids.has(kitRevisionId)), claims.filter(ofKit), spreads.filter(ofKit), endedOf(ended.filter(ofKit)));
    return line ? [{ code, ...line }] : [];
  });
  const toCome = ({ forecast }: ForecastLine) => forecast.months.at(-1)?.upTo.estimate ?? 0;
  return {
    ok: true,
    catalogue,
    whole: lineOf(selected, claims, spreads, endedOf(ended)),
    kits: kits.toSorted((a, b) => toCome(b) - toCome(a) || a.code.localeCompare(b.code)),
    sharedOut: selected.reduce((sum, line) => sum + line.sharedOut, 0),
    today,
  };
}

function addedUp(spreads: readonly CostSpread[]): readonly CostSpread[] {
  return [...new Set(spreads.map(({ currency }) => currency))].map((currency) => {
    const own = spreads.filter((spread) => spread.currency === currency);
    const sum = (amountOf: (spread: CostSpread) => number) => own.reduce((total, spread) => total + amountOf(spread), 0);
    return { currency, paid: sum(({ paid }) => paid), totalMinor: sum(({ totalMinor }) => totalMinor), squaredMinor: sum(({ squaredMinor }) => squaredMinor) };
  });
}
