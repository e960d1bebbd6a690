/** The most that one booking holds: a 32-bit whole number of the smallest unit. */
const MOST_MINOR = 2_000_000_000;

/** How many decimals a currency has: 2 for EUR, 0 for JPY (ISO 4217, as the run time knows it). */
function decimalsOf(currency: string): number {
  return new Intl.NumberFormat("en", { style: "currency", currency }).resolvedOptions().maximumFractionDigits ?? 2;
}

/**
 * An amount as people type it, in the smallest unit of the currency, or null when it is none. Read digit by digit, so
 * that nothing is rounded; a mark of thousands could be a decimal point and is refused.
 *
 * @example parseMoney("129,5", "EUR") // 12950
 * @example parseMoney("1.234,50", "EUR") // null
 */
export function parseMoney(typed: string, currency: string): number | null {
  const parts = /^(\d{1,10})(?:[.,](\d+))?$/.exec(typed.replace(/[\s\u00a0\u202f]/g, ""));
  const decimals = decimalsOf(currency);
  const [, whole = "", fraction = ""] = parts ?? [];
  if (!parts || fraction.length > decimals) return null;
  const minor = Number(whole + fraction.padEnd(decimals, "0"));
  return minor <= MOST_MINOR ? minor : null;
}

/** @example formatMoney(12950, "EUR") // "€129.50" */
export function formatMoney(minor: number, currency: string, language = "en-GB"): string {
  return new Intl.NumberFormat(language, { style: "currency", currency }).format(minor / 10 ** decimalsOf(currency));
}

/** An amount in units of the currency, for reckoning with estimates. Example: 12950 in EUR are 129.5. */
export function fromMinor(minor: number, currency: string): number {
  return minor / 10 ** decimalsOf(currency);
}

/** A cost reckoned in units of the currency, made whole in its smallest unit where it is booked. Example: 129.5 EUR are 12950. */
export function toMinor(units: number, currency: string): number {
  return Math.round(units * 10 ** decimalsOf(currency));
}

/** A sum in units of the currency, as people read an estimate: without decimals. Example: "€130". */
export function formatEstimate(units: number, currency: string): string {
  return new Intl.NumberFormat("en-GB", { style: "currency", currency, maximumFractionDigits: 0 }).format(units);
}

/** As it is typed into a form: "129.50". */
export function typedMoney(minor: number, currency: string): string {
  const decimals = decimalsOf(currency);
  const digits = String(Math.abs(minor)).padStart(decimals + 1, "0");
  return decimals === 0 ? digits : `${digits.slice(0, -decimals)}.${digits.slice(-decimals)}`;
}
