import type { ImportField } from "./fields";

/** How the figures of dates stand, where they are not written year first as ISO 8601 asks. */
export const DATE_ORDERS = ["day-month-year", "month-day-year"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

export const VALUE_PROBLEMS = ["missing", "too-long", "not-readable", "not-an-address", "not-a-country", "not-a-choice", "not-a-number", "not-a-year", "not-a-date", "before-1990", "in-the-future"] as const;
export type ValueProblem = (typeof VALUE_PROBLEMS)[number];

/** Nobody ships turbos from before; an earlier date was misread. */
const FIRST_DAY = "1990-01-01";
const LONGEST: Readonly<Record<string, number>> = { change: 1000, customer_email: 254 };
const LONGEST_TEXT = 200;

export type ReadValue = { ok: true; value: string | null } | { ok: false; problem: ValueProblem };

/**
 * One value of a row in the form in which it is kept: numbers with a point, dates year first, codes of choices; null when
 * the cell is empty.
 *
 * A number may have a decimal comma or point and nothing to part its thousands. A date may be written year first, or in
 * `dateOrder` with four or two figures for the year (26 is 2026), and a time after it is passed over.
 *
 * @param today the last day that may be told, `2026-11-25`
 * @example readValue(importField("shipments", "shipped_on"), "3.11.2026", "day-month-year", "2026-11-25") is "2026-11-03"
 */
export function readValue(field: ImportField, cell: string, dateOrder: DateOrder, today: string): ReadValue {
  const typed = unguarded(cell).trim();
  if (typed === "") return field.isRequired ? wrong("missing") : { ok: true, value: null };
  if (/[^\P{Cc}\n\t\r]|\uFFFD/u.test(typed)) return wrong("not-readable");
  switch (field.type) {
    case "text":
      return typed.length > (LONGEST[field.key] ?? LONGEST_TEXT) ? wrong("too-long") : right(typed.replace(/\s+/g, " "));
    case "email":
      if (typed.length > (LONGEST[field.key] ?? LONGEST_TEXT)) return wrong("too-long");
      return /^[^@\s]+@[^@\s]+\.[^@\s]+$/.test(typed) ? right(typed.toLowerCase()) : wrong("not-an-address");
    case "country":
      return /^[a-z]{2}$/i.test(typed) ? right(typed.toUpperCase()) : wrong("not-a-country");
    case "choice": {
      const choice = typed.toLowerCase().replace(/[^a-z0-9]/g, "");
      const choices = field.choices ?? {};
      return Object.hasOwn(choices, choice) ? right(choices[choice] ?? "") : wrong("not-a-choice");
    }
    case "measure":
      return /^\d{1,6}([.,]\d{1,6})?$/.test(typed) ? right(typed.replace(",", ".")) : wrong("not-a-number");
    case "year":
      return /^(19|20)\d\d$/.test(typed) ? right(typed) : wrong("not-a-year");
    case "date": {
      const day = readDay(typed, dateOrder);
      if (day === null) return wrong("not-a-date");
      if (day < FIRST_DAY) return wrong("before-1990");
      // A revision may be announced, and a kit's last day set, ahead of time.
      return day > today && (field.key === "shipped_on" || field.key === "placed_on") ? wrong("in-the-future") : right(day);
    }
  }
}

/** Takes off the apostrophe that our own files put before what a spreadsheet would take for a formula. */
function unguarded(cell: string): string {
  return /^'[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/.test(cell) ? cell.slice(1) : cell;
}

/** A date as `2026-03-01`, or null when it is none. */
function readDay(typed: string, order: DateOrder): string | null {
  const [, ...iso] = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?$/.exec(typed) ?? [];
  if (iso.length > 0) return dayOf(iso[0], iso[1], iso[2]);
  const [, first, second, year] = /^(\d{1,2})[-/. ]\s?(\d{1,2})[-/. ]\s?(\d{4}|\d{2})(?: .*)?$/.exec(typed) ?? [];
  if (year === undefined) return null;
  const [day, month] = order === "day-month-year" ? [first, second] : [second, first];
  return dayOf(year.length === 2 ? `20${year}` : year, month, day);
}

function dayOf(year = "", month = "", day = ""): string | null {
  const written = `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  const time = Date.parse(`${written}T00:00:00Z`);
  // The 31st of February is a date to nobody.
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(written) ? written : null;
}

/**
 * The order in which dates must have been written, from a few of them: a figure over 12 is no month. Null where they leave
 * it open.
 *
 * @example dateOrderOf(["03/04/2026", "03/17/2026"]) === "month-day-year"
 */
export function dateOrderOf(samples: readonly string[]): DateOrder | null {
  for (const sample of samples) {
    const [, first, second] = /^\s*(\d{1,2})[-/. ]\s?(\d{1,2})[-/. ]\s?\d{2,4}\b/.exec(sample) ?? [];
    if (Number(first) > 12) return "day-month-year";
    if (Number(second) > 12) return "month-day-year";
  }
  return null;
}

const wrong = (problem: ValueProblem): ReadValue => ({ ok: false, problem });
const right = (value: string): ReadValue => ({ ok: true, value });
