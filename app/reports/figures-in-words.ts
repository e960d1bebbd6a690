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

/** An amount of money in the smallest unit of its currency: "EUR 120.00". */
export function money({ currency, amountMinor }: { currency: string; amountMinor: number }): string {
  const words = new Intl.NumberFormat("en-GB", { style: "currency", currency, currencyDisplay: "code" });
  return words.format(amountMinor / 10 ** (words.resolvedOptions().maximumFractionDigits ?? 2));
}
