import type { ChartedMonth, ControlChart } from "@/lib/domain/reporting/control-chart";
import type { Change } from "@/lib/domain/reporting/control-chart-change";
import type { Season } from "@/lib/domain/reporting/control-chart-season";
import { monthInWords } from "@/lib/domain/reporting/month";
import { claimsInWords, count, figure } from "../../figures-in-words";

const MONTH_NAMES = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"] as const;

/** A rate with as many decimals as a small one needs: "28.6", "0.23". */
export function fine(value: number): string {
  return value > 0 && value < 0.95 ? value.toFixed(2) : figure(value);
}

/** What the chart says, as the page's heading. */
export function monthsHeadline(name: string, { months, judged, changes, season }: ControlChart, by: "shipped" | "filed"): string {
  const [first] = months;
  if (!first) return `${name}: nothing was shipped ${by === "filed" ? "before or in" : "in"} these months`;
  const claims = months.reduce((sum, month) => sum + month.claims, 0);
  if (claims === 0) return `${name}: no claim in ${monthsInWords(months.length)}`;
  if (judged.months === 0) return `${name}: ${claimsInWords(claims)}, too early to judge any month`;
  const last = changes.at(-1);
  if (last) return `${name}: ${changeInWords(last, months)}`;
  if (season.kind === "season") return `${name}: ${seasonInWords(season, months)}; that is a season, no change`;
  const outside = months.filter((month) => month.outside !== null);
  if (outside.length > 0) return `${name}: no lasting change; out of the ordinary ${outside.length === 1 ? "is" : "are"} ${outside.slice(-3).map(({ month, outside: side }) => `${monthInWords(month)} (${side})`).join(", ")}`;
  return `${name}: no change beyond chance in ${monthsInWords(judged.months)}`;
}

/** A change in a sentence: "since about October 2025 2.0 times the claims (1.5 to 2.8)". */
export function changeInWords({ start, ratio }: Change, months: readonly ChartedMonth[]): string {
  const since = `since about ${monthInWords(months[start]?.month ?? "")}`;
  if (ratio.estimate === null) return `${since} claims where there were none before`;
  if (ratio.estimate === 0) return `${since} no claim any more`;
  const limits = `(90 % interval ${figure(ratio.lower)} to ${ratio.upper === null ? "no end" : figure(ratio.upper)})`;
  return ratio.estimate > 1 ? `${since} ${figure(ratio.estimate)} times the claims ${limits}` : `${since} claims down to ${Math.round(ratio.estimate * 100)} % (90 % interval ${Math.round(ratio.lower * 100)} to ${ratio.upper === null ? "no end" : Math.round(ratio.upper * 100)} %)`;
}

/** When it may have begun: "it began between September 2025 and November 2025, in nine of ten such cases". */
export function startInWords({ earliest, latest }: Change, months: readonly ChartedMonth[]): string {
  const [from, to] = [months[earliest]?.month ?? "", months[latest]?.month ?? ""];
  return from === to ? `it began in ${monthInWords(from)}, with hardly a doubt` : `it began between ${monthInWords(from)} and ${monthInWords(to)}, in nine of ten such cases`;
}

/** A season in a sentence, counted rather than fitted: "24 of 51 claims come from December to February". */
export function seasonInWords(season: Extract<Season, { kind: "season" }>, months: readonly ChartedMonth[]): string {
  const about = [season.peak + 10, season.peak - 1, season.peak].map((place) => place % 12);
  const total = months.reduce((sum, { claims }) => sum + claims, 0);
  const inSeason = months.reduce((sum, { month, claims }) => sum + (about.includes(Number(month.slice(5)) - 1) ? claims : 0), 0);
  return `${count(inSeason)} of ${claimsInWords(total)} fall into ${MONTH_NAMES[about[0] ?? 0]} to ${MONTH_NAMES[about[2] ?? 0]}, ${season.years} years running`;
}

function monthsInWords(months: number): string {
  return months === 1 ? "one month" : `${months} months`;
}

/** What a month's mark says. */
export function monthMark({ month, claims, exposure, kind, rate, outside }: ChartedMonth, by: "shipped" | "filed"): string {
  const of = by === "shipped" ? `${count(exposure)} shipped` : `${count(exposure)} unit-months`;
  if (kind === "empty") return `${monthInWords(month)}: ${by === "shipped" ? "none shipped" : "none in the field"}`;
  const so = `${monthInWords(month)}: ${claimsInWords(claims)} on ${of}`;
  if (!rate) return `${so}, too new to judge`;
  const words = `${fine(rate.estimate)} per 1,000`;
  return `${so}, ${words}${kind === "incomplete" ? " with those still to come" : ""}${outside ? `, ${outside} what chance leaves` : ""}`;
}
