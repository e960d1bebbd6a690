import { z } from "zod";
import { ORIGINS } from "@/lib/domain/diagnosis/attributions";
import { OUTCOMES } from "@/lib/domain/reporting/outcomes";
import type { Month, Period } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "./query";

const month = z.string().regex(/^20\d\d-(0[1-9]|1[0-2])$/, "Write a month from 2000 on as 2026-01.");
const vehicle = z.literal("unknown").or(z.guid("There is no such vehicle."));
const kit = z.string().max(40, "There is no such kit.");
const revision = z.string().max(40, "There is no such revision.");
const cause = z.string().regex(/^C\d{2,3}$/, "A cause has a code such as C01.");

const monthInService = z.coerce.number("Months in service are a number.").int("Months in service are a whole number.").min(0, "Months in service begin with 0.").max(240, "That is longer than anything was in service.");

/** What every report narrows by: months of shipping, and what else is given. */
const narrowed = {
  from: month,
  to: month,
  kit: kit.optional(),
  revision: revision.optional(),
  vehicle: vehicle.optional(),
  batch: z.string().max(60, "There is no such batch.").optional(),
  cause: cause.optional(),
  /** What claims were laid to, or `decided` for all with a verdict. */
  outcome: z.enum([...OUTCOMES, "decided"], "There is no such outcome.").optional(),
  origin: z.enum(ORIGINS, "There is no such origin.").optional(),
  fitter: z.guid("There is no such fitter.").optional(),
  /** Months from fitting to filing, first and last. */
  serviceFrom: monthInService.optional(),
  serviceTo: monthInService.optional(),
};

/** Causes by kit and vehicle. */
export const causesFilterSchema = z.object({
  ...narrowed,
  by: z.enum(["kit", "revision"], "Rows are kits or revisions.").default("kit"),
  /** Probable causes of undecided claims too, apart from the verdicts. */
  with: z.literal("probable", "Only probable is known here.").optional(),
});
export type CausesFilter = z.output<typeof causesFilterSchema>;

/** The causes behind one cell, row or column. */
export const selectionFilterSchema = z.object({ ...narrowed, with: causesFilterSchema.shape.with });
export type SelectionFilter = z.output<typeof selectionFilterSchema>;

/** One of the tables about a selection, as a file. */
export const selectionFileSchema = z.object({
  ...selectionFilterSchema.shape,
  table: z.enum(["causes", "revisions", "months", "ages", "batches", "fitters"], "There is no such table.").default("causes"),
});
export type SelectionFileFilter = z.output<typeof selectionFileSchema>;

/** The claims behind a figure. */
export const claimsBehindFilterSchema = z.object({
  ...narrowed,
  /** Whether the cause is to be the primary one, a contributing one, or probable by the ranking of an undecided claim. */
  role: z.enum(["primary", "contributing", "probable"], "A cause is primary, contributing or probable.").default("primary"),
  /** The month of filing. */
  filed: month.optional(),
  /** `none`: claims that could not be matched with a shipment, by month of filing. */
  shipment: z.literal("none", "Only none is known here.").optional(),
  page: z.coerce.number("A page is a number.").int("A page is a whole number.").min(1, "Pages begin with 1.").max(10_000, "There is no such page.").default(1),
});
export type ClaimsBehindFilter = z.output<typeof claimsBehindFilterSchema>;

export type ReadFilter<Filter> =
  | { ok: true; filter: Filter }
  /** By field, for the message beside it. */
  | { ok: false; reason: "not-understood"; errors: Readonly<Partial<Record<string, string>>>; given: Readonly<Record<string, string>> };

/**
 * A report's filter from its address. An empty parameter counts as left out, of a repeated one the first counts, and
 * an unknown one is passed over.
 *
 * @param usual the period where none is given
 */
export function readFilter<Filter extends Period & { serviceFrom?: number | undefined; serviceTo?: number | undefined }>(schema: z.ZodType<Filter>, query: QueryParameters, usual: { from: Month; to: Month }): ReadFilter<Filter> {
  const given = { ...usual, ...firstValues(query) };
  const read = schema.safeParse(given);
  if (!read.success) {
    const errors: Partial<Record<string, string>> = {};
    for (const { path, message } of read.error.issues) errors[String(path[0])] ??= message;
    return { ok: false, reason: "not-understood", errors, given };
  }
  if (read.data.from > read.data.to) return { ok: false, reason: "not-understood", errors: { to: "The last month lies before the first." }, given };
  const { serviceFrom = 0, serviceTo } = read.data;
  if (serviceTo !== undefined && serviceFrom > serviceTo) return { ok: false, reason: "not-understood", errors: { serviceTo: "The last month in service lies before the first." }, given };
  return { ok: true, filter: read.data };
}
