import "server-only";
import type { Remedy } from "@/lib/domain/claims/remedies";
import { type Db, database } from "./client";

export interface SettlementToInsert {
  claimId: string;
  remedy: Remedy;
  amountMinor: number;
  currency: string;
  note: string;
  bookedById: string;
  bookedAt: Date;
  reversesId?: string;
}

export async function insertSettlement(db: Db, settlement: SettlementToInsert): Promise<void> {
  await db.settlement.create({ data: settlement });
}

/** Everything booked for a claim, oldest first. */
export function listSettlements(claimId: string, db: Db = database()) {
  return db.settlement.findMany({
    where: { claimId },
    orderBy: [{ bookedAt: "asc" }, { id: "asc" }],
    select: {
      id: true,
      remedy: true,
      amountMinor: true,
      currency: true,
      note: true,
      bookedAt: true,
      bookedBy: { select: { name: true } },
      reversesId: true,
      reversedBy: { select: { id: true } },
    },
  });
}
export type BookedSettlement = Awaited<ReturnType<typeof listSettlements>>[number];
