import { z } from "zod";
import { claimsBehindFilterSchema } from "./report-filter";

const { from, to, kit, revision, vehicle, batch, cause, outcome, origin } = claimsBehindFilterSchema.shape;

/** Claims by month. */
export const monthsFilterSchema = z.object({
  from,
  to,
  kit,
  revision,
  vehicle,
  batch,
  cause,
  outcome,
  origin,
  /** Months of shipping, or months of filing. */
  by: z.enum(["shipped", "filed"], "Months are of shipping or of filing.").default("shipped"),
});
export type MonthsFilter = z.output<typeof monthsFilterSchema>;

/** Time from fitting to claim. */
export const toClaimFilterSchema = z.object({
  from,
  to,
  kit,
  revision,
  vehicle,
  batch,
  cause,
  outcome,
  origin,
  each: z.enum(["kit", "cause"], "Lines are kits or causes.").default("kit"),
});
export type ToClaimFilter = z.output<typeof toClaimFilterSchema>;

/** Claims to come. Every claim counts, whatever it will be laid to. */
export const forecastFilterSchema = z.object({
  from,
  to,
  kit,
  revision,
  vehicle,
  batch,
  /** How far ahead. */
  months: z.coerce.number("Months ahead are a number.").int("Months ahead are a whole number.").min(1, "Look at least one month ahead.").max(24, "Further ahead than 24 months nothing is told.").default(6),
  /** A table of the page, as a file. */
  table: z.enum(["months", "kits"], "There is no such table.").default("months"),
});
export type ForecastFilter = z.output<typeof forecastFilterSchema>;
