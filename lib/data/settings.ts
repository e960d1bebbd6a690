import "server-only";
import { database } from "./client";

export interface SellerSettings {
  name: string;
  returnAddress: string;
  email: string;
  phone: string;
  currency: string;
  timeZone: string;
  workingDays: readonly number[];
  opensAt: string;
  closesAt: string;
  promisedAnswerHours: number;
  returnWithinDays: number;
}

/** The seller's settings: the one row that the migrations put there. */
export async function loadSettings(): Promise<SellerSettings> {
  return database().sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
}
