import { z } from "zod";
import { parseMoney } from "@/lib/domain/claims/money";
import { LONGEST } from "@/lib/domain/intake/fields";
import { linesSchema } from "./text";

/** A new chargeback: single verdicts, and batches of which every verdict not yet charged comes in. */
export const beginSchema = z
  .object({
    supplierId: z.guid(),
    verdicts: z.array(z.guid()).max(500),
    batches: z.array(z.string().max(60)).max(100),
  })
  .refine(({ verdicts, batches }) => verdicts.length + batches.length > 0, { path: ["verdicts"], message: "Tick what is to be charged back" });

export const chargebackActSchema = z.object({ number: z.coerce.number().int().positive(), version: z.coerce.number().int().nonnegative() });

export const takeOutSchema = z.object({ ...chargebackActSchema.shape, lineId: z.guid() });

export const sendSchema = z.object({
  ...chargebackActSchema.shape,
  days: z.coerce.number("Write a number of days").int("Write whole days").min(1, "Write 1 or more").max(365, "Write 365 or less"),
  note: linesSchema(2_000),
});

/** Of whatever is not answered yet. */
export const REST_OF_ANSWERS = ["whole", "nothing"] as const;

/** Answers as they came from the supplier: an amount for each line, empty where none came; `rest` answers all of those at once. */
export function answersSchema(currency: string) {
  const amount = z.string().max(LONGEST.number).transform((typed, context) => {
    if (typed.trim() === "") return null;
    const minor = parseMoney(typed, currency);
    if (minor !== null) return minor;
    context.addIssue({ code: "custom", message: "Write an amount such as 129.50 or 129,50, or 0 for a refusal" });
    return z.NEVER;
  });
  return z.object({ ...chargebackActSchema.shape, amounts: z.record(z.guid(), amount), rest: z.enum(REST_OF_ANSWERS).optional(), note: linesSchema(LONGEST.words) });
}
export type SupplierAnswers = z.output<ReturnType<typeof answersSchema>>;
