import type { Booking, BookingKind } from "./bookings";

/** Where a demand on a supplier stands. */
export const CHARGEBACK_STATES = ["draft", "sent", "accepted", "accepted_in_part", "refused", "closed"] as const;
export type ChargebackState = (typeof CHARGEBACK_STATES)[number];

export const CHARGEBACK_STATE_NAMES: Readonly<Record<ChargebackState, string>> = {
  draft: "draft",
  sent: "sent, to be answered",
  accepted: "accepted in whole",
  accepted_in_part: "accepted in part",
  refused: "refused",
  closed: "closed",
};

/** What one verdict cost, in the smallest unit of the currency. */
export interface ChargedAmounts {
  remedyMinor: number;
  carriageMinor: number;
  benchMinor: number;
}

export interface ChargedLine extends ChargedAmounts {
  /** What the supplier has accepted of it; null while there is no answer. */
  acceptedMinor: number | null;
}

/** The whole of a line. */
export const lineTotal = ({ remedyMinor, carriageMinor, benchMinor }: ChargedAmounts): number => remedyMinor + carriageMinor + benchMinor;

/** An inspection that lay unfinished longer than this counts no more of its time, in minutes (judgement). */
const MOST_BENCH_MINUTES = 240;

/** Minutes at the bench, from beginning to end of each inspection. */
export function benchMinutes(inspections: readonly { startedAt: Date; inspectedAt: Date | null }[]): number {
  return inspections.reduce((sum, { startedAt, inspectedAt }) => sum + (inspectedAt ? Math.round(Math.min(MOST_BENCH_MINUTES, (inspectedAt.getTime() - startedAt.getTime()) / 60_000)) : 0), 0);
}

type Booked = Pick<Booking, "kind" | "currency" | "sellerMinor" | "supplierMinor">;
const CARRIAGE: readonly BookingKind[] = ["carriage_out", "carriage_back"];

/**
 * What a verdict has cost that the customer does not bear, by what is booked in this currency, reversals taken off.
 *
 * Example: a replacement of 520.00 and carriage back of 18.50, both the seller's, are 52000 and 1850.
 */
export function costOfRemedy(booked: readonly Booked[], currency: string): Pick<ChargedAmounts, "remedyMinor" | "carriageMinor"> {
  const sum = (isCarriage: boolean) =>
    booked.filter((one) => one.currency === currency && CARRIAGE.includes(one.kind) === isCarriage).reduce((total, { sellerMinor, supplierMinor }) => total + sellerMinor + supplierMinor, 0);
  // A deposit that was kept may have brought in more than the remedy cost.
  return { remedyMinor: Math.max(0, sum(false)), carriageMinor: Math.max(0, sum(true)) };
}

export interface ChargebackTotals extends ChargedAmounts {
  askedMinor: number;
  acceptedMinor: number;
  refusedMinor: number;
  /** Of lines without an answer. */
  openMinor: number;
}

/**
 * What a chargeback asks and what became of it: asked is remedies, carriage and bench together, and just as much is
 * accepted, refused and open together.
 *
 * Example: two lines of 52000 and 48000, the first accepted with 40000, are asked 100000, accepted 40000, refused 12000,
 * open 48000.
 */
export function chargebackTotals(lines: readonly ChargedLine[]): ChargebackTotals {
  const totals = { remedyMinor: 0, carriageMinor: 0, benchMinor: 0, askedMinor: 0, acceptedMinor: 0, refusedMinor: 0, openMinor: 0 };
  for (const line of lines) {
    const asked = lineTotal(line);
    totals.remedyMinor += line.remedyMinor;
    totals.carriageMinor += line.carriageMinor;
    totals.benchMinor += line.benchMinor;
    totals.askedMinor += asked;
    totals.acceptedMinor += line.acceptedMinor ?? 0;
    if (line.acceptedMinor === null) totals.openMinor += asked;
    else totals.refusedMinor += asked - line.acceptedMinor;
  }
  return totals;
}

/**
 * The state that the answers so far come to: `sent` until each line has one, then accepted in whole, in part, or refused.
 *
 * Example: one line accepted in whole and one refused are `accepted_in_part`.
 */
export function stateByAnswers(lines: readonly ChargedLine[]): "sent" | "accepted" | "accepted_in_part" | "refused" {
  if (lines.some(({ acceptedMinor }) => acceptedMinor === null)) return "sent";
  const { acceptedMinor, refusedMinor } = chargebackTotals(lines);
  if (refusedMinor === 0) return "accepted";
  return acceptedMinor === 0 ? "refused" : "accepted_in_part";
}

/** Acts on a chargeback, and the states each may start from. */
const ACTS = {
  change_lines: ["draft"],
  drop: ["draft"],
  send: ["draft"],
  answer: ["sent", "accepted", "accepted_in_part", "refused"],
  close: ["accepted", "accepted_in_part", "refused"],
} as const satisfies Record<string, readonly ChargebackState[]>;
export type ChargebackAct = keyof typeof ACTS;

/** @example mayAct("draft", "answer") // false */
export const mayAct = (state: ChargebackState, act: ChargebackAct): boolean => (ACTS[act] as readonly ChargebackState[]).includes(state);
