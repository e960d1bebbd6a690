import "server-only";
import type { Booking } from "@/lib/domain/claims/bookings";
import { type Db, database } from "./client";

export interface SettlementToInsert extends Omit<Booking, "id"> {
  claimId: string;
  round: number;
  bookingKey: string;
  note: string;
  bookedById: string;
  bookedAt: Date;
}

export async function insertSettlement(db: Db, settlement: SettlementToInsert): Promise<void> {
  await db.settlement.create({ data: settlement });
}

const SHOWN = {
  id: true,
  kind: true,
  amountMinor: true,
  sellerMinor: true,
  customerMinor: true,
  supplierMinor: true,
  heldMinor: true,
  currency: true,
  note: true,
  bookedAt: true,
  bookedBy: { select: { name: true } },
  bookingKey: true,
  reversesId: true,
} as const;

/** Everything booked for a claim, oldest first. */
export function listSettlements(claimId: string, db: Db = database()) {
  return db.settlement.findMany({ where: { claimId }, orderBy: [{ bookedAt: "asc" }, { id: "asc" }], select: SHOWN });
}
export type BookedSettlement = Awaited<ReturnType<typeof listSettlements>>[number];

/** What was booked from a moment on and before another, by kind and currency, reversals taken off. */
export async function sumBookings(from: Date, before: Date) {
  const sums = await database().settlement.groupBy({
    by: ["kind", "currency"],
    where: { bookedAt: { gte: from, lt: before } },
    _sum: { sellerMinor: true, customerMinor: true, supplierMinor: true, heldMinor: true },
    _count: true,
    orderBy: [{ currency: "asc" }, { kind: "asc" }],
  });
  return sums.map(({ kind, currency, _sum, _count }) => ({ kind, currency, bookings: _count, sellerMinor: _sum.sellerMinor ?? 0, customerMinor: _sum.customerMinor ?? 0, supplierMinor: _sum.supplierMinor ?? 0, heldMinor: _sum.heldMinor ?? 0 }));
}

/** Everything booked from a moment on and before another, oldest first, each with its claim's reference, kit and verdict. */
export function listBookings(from: Date, before: Date) {
  return database().settlement.findMany({
    where: { bookedAt: { gte: from, lt: before } },
    orderBy: [{ bookedAt: "asc" }, { id: "asc" }],
    select: { ...SHOWN, claim: { select: { reference: true, kitRevision: { select: { revision: true, kit: { select: { code: true } } } }, verdicts: { where: { supersededAt: null }, select: { attribution: true, remedy: true } } } } },
  });
}
