import { z } from "zod";
import { parseMoney } from "@/lib/domain/claims/money";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import { LONGEST } from "@/lib/domain/intake/fields";
import { linesSchema } from "./text";

/** A booking in the seller's currency. An empty amount is none: the claim is settled without money. */
export function settlementSchema(currency: string) {
  return z.object({
    version: z.coerce.number().int().nonnegative(),
    remedy: z.enum(REMEDIES, "Choose what is booked"),
    amount: z
      .string()
      .max(LONGEST.number, "Write an amount such as 129.50 or 129,50")
      .transform((typed, context) => {
        const minor = typed.trim() === "" ? 0 : parseMoney(typed, currency);
        if (minor !== null) return minor;
        context.addIssue({ code: "custom", message: "Write an amount such as 129.50 or 129,50, without a mark between the thousands" });
        return z.NEVER;
      }),
    note: linesSchema(LONGEST.words),
    settles: z.literal("yes").optional(),
  });
}

export const reversalSchema = z.object({ settlementId: z.uuid(), note: linesSchema(LONGEST.words, "Say why it is reversed") });
