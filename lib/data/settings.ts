import "server-only";
import type { ReminderDays } from "@/lib/domain/claims/reminders";
import type { StakeSettings } from "@/lib/domain/diagnosis/stakes";
import { type Db, database } from "./client";

export interface SellerSettings extends StakeSettings, ReminderDays {
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
  /** Of a hundred decided claims, so many are put to another person for a second opinion. */
  secondOpinionShare: number;
  /** A verdict that costs more than this, in units of the currency, waits for a second person. */
  secondPersonAbove: number;
  /** What each remedy costs, in units of the currency. */
  unitCost: number;
  unitPrice: number;
  repairCost: number;
  partCost: number;
  carriageCost: number;
  goodwillCost: number;
}

/** The seller's settings: the one row that the migrations put there. */
export async function loadSettings(db: Db = database()): Promise<SellerSettings> {
  return db.sellerSettings.findUniqueOrThrow({ where: { id: 1 } });
}

/** The settings, and nobody else may change them until the transaction ends. */
export async function lockSettings(db: Db): Promise<SellerSettings> {
  await db.$queryRaw`SELECT 1 FROM seller_settings WHERE id = 1 FOR UPDATE`;
  return loadSettings(db);
}

export async function updateSettings(db: Db, settings: SellerSettings): Promise<void> {
  await db.sellerSettings.update({ where: { id: 1 }, data: { ...settings, workingDays: [...settings.workingDays] } });
}
