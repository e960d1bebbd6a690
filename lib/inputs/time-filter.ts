import { z } from "zod";
import { claimsBehindFilterSchema } from "./report-filter";

/** The part of the sales and the span of time. */
const sales = claimsBehindFilterSchema.pick({ from: true, to: true, kit: true, revision: true, vehicle: true, batch: true });
const salesAndClaims = sales.extend(claimsBehindFilterSchema.pick({ cause: true, outcome: true, origin: true }).shape);

/** Claims by month. */
export const monthsFilterSchema = salesAndClaims.extend({
  /** Months of shipping, or months of filing. */
  by: z.enum(["shipped", "filed"], "Months are of shipping or of filing.").default("shipped"),
});
export type MonthsFilter = z.output<typeof monthsFilterSchema>;

/** Time from fitting to claim. */
export const toClaimFilterSchema = salesAndClaims.extend({
  each: z.enum(["kit", "cause"], "Lines are kits or causes.").default("kit"),
});
export type ToClaimFilter = z.output<typeof toClaimFilterSchema>;

/** Claims to come. Every claim counts, whatever it will be laid to. */
export const forecastFilterSchema = sales.extend({
  /** How far ahead. */
  months: z.coerce.number("Months ahead are a number.").int("Months ahead are a whole number.").min(1, "Look at least one month ahead.").max(24, "Further ahead than 24 months nothing is told.").default(6),
  /** A table of the page, as a file. */
  table: z.enum(["months", "kits"], "There is no such table.").default("months"),
});
export type ForecastFilter = z.output<typeof forecastFilterSchema>;
