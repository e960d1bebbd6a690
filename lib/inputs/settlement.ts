import { z } from "zod";
import { COST_KINDS, DEPOSIT_ENDS } from "@/lib/domain/claims/bookings";
import { parseMoney } from "@/lib/domain/claims/money";
import { LONGEST } from "@/lib/domain/intake/fields";
import { selectionFilterSchema } from "./report-filter";
import { linesSchema } from "./text";

const AMOUNT = "Write an amount such as 129.50 or 129,50, without a mark between the thousands";

/** An amount as typed, in the smallest unit; empty is null. */
export function amountSchema(currency: string) {
  return z
    .string()
    .max(LONGEST.number, AMOUNT)
    .transform((typed, context) => {
      if (typed.trim() === "") return null;
      const minor = parseMoney(typed, currency);
      if (minor !== null && minor > 0) return minor;
      context.addIssue({ code: "custom", message: AMOUNT });
      return z.NEVER;
    });
}

/** A whole number of hundredths, as typed. */
export const percentSchema = z
  .string()
  .trim()
  .regex(/^\d{0,3}$/, "Write a whole number from 0 to 100")
  .transform((typed) => (typed === "" ? null : Number(typed)))
  .refine((percent) => percent === null || percent <= 100, "Write a whole number from 0 to 100");

/** A booking of what something costs, and who bears it, or of a deposit taken. The amount is in the currency of the booking. */
export function bookingSchema(currency: string) {
  return z
    .object({
      version: z.coerce.number().int().nonnegative(),
      bookingKey: z.guid(),
      kind: z.enum([...COST_KINDS, "core_held"], "Choose what is booked"),
      amount: amountSchema(currency).refine((minor): minor is number => minor !== null, "Write the amount"),
      sellerPercent: percentSchema.default(100).transform((percent) => percent ?? 100),
      supplierPercent: percentSchema.default(0).transform((percent) => percent ?? 0),
      note: linesSchema(LONGEST.words),
    })
    .refine(({ sellerPercent, supplierPercent }) => sellerPercent + supplierPercent <= 100, { path: ["supplierPercent"], message: "The shares of seller and supplier make no more than 100 together" });
}

/** What becomes of a deposit. */
export const depositEndSchema = z.object({ bookingKey: z.guid(), depositId: z.guid(), end: z.enum(DEPOSIT_ENDS, "Choose what becomes of it"), note: linesSchema(LONGEST.words) });

export const reversalSchema = z.object({ bookingKey: z.guid(), settlementId: z.guid(), note: linesSchema(LONGEST.words, "Say why it is reversed") });

/** The bookings of a period of months. */
export const bookingsFilterSchema = selectionFilterSchema.pick({ from: true, to: true });
export type BookingsFilter = z.output<typeof bookingsFilterSchema>;

/** One table of them as a file. */
export const bookingsFileSchema = z.object({ ...bookingsFilterSchema.shape, table: z.enum(["sums", "bookings"], "There is no such table.").default("bookings") });
export type BookingsFileFilter = z.output<typeof bookingsFileSchema>;
