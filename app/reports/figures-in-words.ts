import type { Cost } from "@/lib/domain/reporting/cohorts";
import { FEWEST_CLAIMS } from "@/lib/domain/reporting/figures";
import type { Interval } from "@/lib/domain/statistics/poisson-interval";

const whole = new Intl.NumberFormat("en-GB", { maximumFractionDigits: 0 });
const oneDecimal = new Intl.NumberFormat("en-GB", { minimumFractionDigits: 1, maximumFractionDigits: 1 });

/** A count, or shipments shared out, as a whole number: "1,140". */
export function count(value: number): string {
  return whole.format(value);
}

/** A rate or ratio with one decimal, none from 100 on: "20.2". */
export function figure(value: number): string {
  return Math.abs(value) < 99.95 ? oneDecimal.format(value) : whole.format(value);
}

/** What every limit of a rate or share is, for a note. */
export const INTERVALS_IN_WORDS = "Every interval holds 90 %: that of a rate is the exact one of a Poisson count over its exposure, that of a share Wilson's.";

/** The limits of an interval: "13.8 to 28.6". */
export function limits({ lower, upper }: Interval): string {
  return `${figure(lower)} to ${figure(upper)}`;
}

/** The same for a table: "13.8–28.6". */
export function tightLimits({ lower, upper }: Interval): string {
  return `${figure(lower)}–${figure(upper)}`;
}

/** The limits of a share in per cent, for a table: "58–89 %". */
export function shareLimits({ lower, upper }: Interval): string {
  return `${whole.format(lower * 100)}–${whole.format(upper * 100)} %`;
}

/** "1 claim", "23 claims". */
export function claimsInWords(claims: number): string {
  return claims === 1 ? "1 claim" : `${count(claims)} claims`;
}

/** A rate with its limits, or its limits alone where there are too few claims: "20.2 (13.8 to 28.6)". */
export function rateInWords(rate: Interval | null, claims: number, none: string): string {
  if (!rate) return none;
  return claims < FEWEST_CLAIMS ? limits(rate) : `${figure(rate.estimate)} (${limits(rate)})`;
}

/** The same for a table: "20.2 (13.8–28.6)". */
export function tightRate(rate: Interval | null, claims: number, none = ""): string {
  if (!rate) return none;
  return claims < FEWEST_CLAIMS ? tightLimits(rate) : `${figure(rate.estimate)} (${tightLimits(rate)})`;
}

/** A weight of probable claims: "2.3". */
export function weight(value: number): string {
  return value > 0 && value < 0.05 ? "under 0.1" : oneDecimal.format(value);
}

/** Money by currency: "EUR 120.00, GBP 12.00". */
export function costsInWords(costs: readonly Cost[], none = "nothing booked"): string {
  return costs.length > 0 ? costs.map(money).join(", ") : none;
}

/** An amount of money in the smallest unit of its currency: "EUR 120.00". */
export function money({ currency, amountMinor }: Cost): string {
  const words = new Intl.NumberFormat("en-GB", { style: "currency", currency, currencyDisplay: "code" });
  return words.format(amountMinor / 10 ** (words.resolvedOptions().maximumFractionDigits ?? 2));
}
