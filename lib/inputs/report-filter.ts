import { z } from "zod";
import { OUTCOMES } from "@/lib/domain/reporting/outcomes";
import type { Month, Period } from "@/lib/domain/reporting/month";
import { firstValues, type QueryParameters } from "./query";

const month = z.string().regex(/^20\d\d-(0[1-9]|1[0-2])$/, "Write a month from 2000 on as 2026-01.");
const vehicle = z.literal("unknown").or(z.guid("There is no such vehicle."));
const kit = z.string().max(40, "There is no such kit.");
const revision = z.string().max(40, "There is no such revision.");
const cause = z.string().regex(/^C\d{2,3}$/, "A cause has a code such as C01.");

const period = { from: month, to: month };

/** Causes by kit and vehicle. */
export const causesFilterSchema = z.object({
  ...period,
  kit: kit.optional(),
  vehicle: vehicle.optional(),
  cause: cause.optional(),
  by: z.enum(["kit", "revision"], "Rows are kits or revisions.").default("kit"),
});
export type CausesFilter = z.output<typeof causesFilterSchema>;

/** The causes behind one cell, row or column. */
export const selectionFilterSchema = z.object({ ...period, kit: kit.optional(), revision: revision.optional(), vehicle: vehicle.optional() });
export type SelectionFilter = z.output<typeof selectionFilterSchema>;

/** The claims behind a figure. */
export const claimsBehindFilterSchema = z.object({
  ...period,
  kit: kit.optional(),
  revision: revision.optional(),
  vehicle: vehicle.optional(),
  cause: cause.optional(),
  /** Whether the cause is to be the primary one or a contributing one. */
  role: z.enum(["primary", "contributing"], "A cause is primary or contributing.").default("primary"),
  outcome: z.enum([...OUTCOMES, "decided"], "There is no such outcome.").optional(),
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
export function readFilter<Filter extends Period>(schema: z.ZodType<Filter>, query: QueryParameters, usual: { from: Month; to: Month }): ReadFilter<Filter> {
  const given = { ...usual, ...firstValues(query) };
  const read = schema.safeParse(given);
  if (!read.success) {
    const errors: Partial<Record<string, string>> = {};
    for (const { path, message } of read.error.issues) errors[String(path[0])] ??= message;
    return { ok: false, reason: "not-understood", errors, given };
  }
  if (read.data.from > read.data.to) return { ok: false, reason: "not-understood", errors: { to: "The last month lies before the first." }, given };
  return { ok: true, filter: read.data };
}
