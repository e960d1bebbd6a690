import type { BearingShares } from "./bearing-shares";
import type { Remedy } from "./remedies";

/** What is booked for a claim. `core_held` is a deposit taken for the old part, which ends released or kept. */
export const BOOKING_KINDS = ["part", "repair", "replacement", "refund", "goodwill", "carriage_out", "carriage_back", "core_held", "core_released", "core_kept"] as const;
export type BookingKind = (typeof BOOKING_KINDS)[number];

export const BOOKING_NAMES: Readonly<Record<BookingKind, string>> = {
  part: "part sent",
  repair: "repair",
  replacement: "replacement",
  refund: "refund",
  goodwill: "goodwill",
  carriage_out: "carriage to the customer",
  carriage_back: "carriage of the old unit",
  core_held: "deposit held for the old part",
  core_released: "deposit given back",
  core_kept: "deposit kept",
};

/** What is booked by its amount and who bears it; deposits move whole. */
export const COST_KINDS = ["part", "repair", "replacement", "refund", "goodwill", "carriage_out", "carriage_back"] as const satisfies readonly BookingKind[];
export const DEPOSIT_ENDS = ["core_released", "core_kept"] as const satisfies readonly BookingKind[];
export type DepositEnd = (typeof DEPOSIT_ENDS)[number];

export interface Booking extends BearingShares {
  id: string;
  kind: BookingKind;
  amountMinor: number;
  /** The customer's money in the seller's hands. */
  heldMinor: number;
  currency: string;
  /** The booking that this one takes back. */
  reversesId: string | null;
}

/** What a booking moves beside its amount. A deposit costs nobody anything until it is kept; kept, it is the seller's. */
export function movesOf(kind: BookingKind, amountMinor: number, shares: BearingShares): BearingShares & { heldMinor: number } {
  const nothing = { sellerMinor: 0, customerMinor: 0, supplierMinor: 0 };
  if (kind === "core_held") return { ...nothing, heldMinor: amountMinor };
  if (kind === "core_released") return { ...nothing, heldMinor: -amountMinor };
  if (kind === "core_kept") return { ...nothing, sellerMinor: -amountMinor, customerMinor: amountMinor, heldMinor: -amountMinor };
  return { ...shares, heldMinor: 0 };
}

/** The bookings that stand: neither reversals, nor reversed. */
export function standingBookings<One extends Pick<Booking, "id" | "reversesId">>(booked: readonly One[]): One[] {
  const reversed = new Set(booked.map(({ reversesId }) => reversesId));
  return booked.filter(({ id, reversesId }) => reversesId === null && !reversed.has(id));
}

/** In which round a kind is booked next: after so many reversals of it. */
export const roundOf = (booked: readonly Pick<Booking, "kind" | "reversesId">[], kind: BookingKind): number => booked.filter((one) => one.kind === kind && one.reversesId !== null).length;

export interface BookedTotal extends BearingShares {
  currency: string;
  /** What everything came to: the three shares together. */
  allMinor: number;
  heldMinor: number;
}

/**
 * What the bookings come to, by currency: whole numbers of the smallest unit, so that nothing is rounded.
 *
 * Example: a refund of 100.00 and its reversal come to 0.
 */
export function totalsOf(booked: readonly Omit<Booking, "id" | "kind" | "amountMinor" | "reversesId">[]): BookedTotal[] {
  const currencies = [...new Set(booked.map(({ currency }) => currency))].sort();
  return currencies.map((currency) => {
    const sum = (of: "sellerMinor" | "customerMinor" | "supplierMinor" | "heldMinor") => booked.reduce((total, one) => total + (one.currency === currency ? one[of] : 0), 0);
    const [sellerMinor, customerMinor, supplierMinor] = [sum("sellerMinor"), sum("customerMinor"), sum("supplierMinor")];
    return { currency, sellerMinor, customerMinor, supplierMinor, allMinor: sellerMinor + customerMinor + supplierMinor, heldMinor: sum("heldMinor") };
  });
}

/** What a verdict promises in money and goods, beside its remedy. */
export interface VerdictPromise {
  /** What the remedy comes to in all; null where no sum was named. */
  promisedMinor: number | null;
  promisedCurrency: string | null;
  /** Of that sum, what the seller bears in a hundred. */
  sellerPercent: number;
  /** Held until the old part is back in the agreed state. */
  coreDepositMinor: number | null;
  paysCarriage: boolean;
}

export const NOTHING_PROMISED: VerdictPromise = { promisedMinor: null, promisedCurrency: null, sellerPercent: 100, coreDepositMinor: null, paysCarriage: false };

const KIND_OF_REMEDY: Readonly<Partial<Record<Remedy, BookingKind>>> = { part_sent: "part", repair: "repair", replacement: "replacement", refund: "refund", goodwill: "goodwill" };

/** One thing promised, with what of it is booked. */
export interface PromisedThing {
  kind: BookingKind;
  /** Null where no sum was named: any booking of it keeps the promise. */
  promisedMinor: number | null;
  currency: string | null;
  bookedMinor: number;
  isKept: boolean;
}

/**
 * What a verdict promised held against what stands booked. A sum that was named is kept by no less; a deposit that was
 * taken is kept once it is given back or kept.
 *
 * Example: 280.00 promised as goodwill and 250.00 booked is not kept yet.
 */
export function promisedThings(remedy: Remedy, promise: VerdictPromise, booked: readonly Booking[]): PromisedThing[] {
  const standing = standingBookings(booked);
  const thing = (kind: BookingKind, promisedMinor: number | null): PromisedThing => {
    const [found] = standing.filter((one) => one.kind === kind && (promisedMinor === null || one.currency === promise.promisedCurrency));
    return { kind, promisedMinor, currency: promise.promisedCurrency ?? found?.currency ?? null, bookedMinor: found?.amountMinor ?? 0, isKept: found !== undefined && found.amountMinor >= (promisedMinor ?? 0) };
  };
  const kind = KIND_OF_REMEDY[remedy];
  const isHeld = standing.some((one) => one.kind === "core_held");
  const isEnded = standing.some((one) => DEPOSIT_ENDS.some((end) => end === one.kind));
  const deposit = thing("core_held", promise.coreDepositMinor);
  return [
    ...(kind ? [thing(kind, promise.promisedMinor)] : []),
    ...(promise.paysCarriage ? [thing("carriage_back", null)] : []),
    ...(promise.coreDepositMinor !== null || isHeld ? [{ ...deposit, isKept: isHeld && isEnded }] : []),
  ];
}

/** The kind that a remedy is booked as first; advice and declining book nothing. */
export const kindOfRemedy = (remedy: Remedy): BookingKind | null => KIND_OF_REMEDY[remedy] ?? null;
