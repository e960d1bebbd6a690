import { z } from "zod";
import { isChange, SIGNAL_ACTS, SIGNAL_STATES } from "@/lib/domain/reporting/signals-acts";
import { firstValues, type QueryParameters } from "./query";
import { linesSchema } from "./text";

const LONGEST_NOTE = 2000;
const left = (value: unknown) => (value === "" ? undefined : value);

/** What was done about a signal. A change of what ships needs the month from which it does. */
export const signalDecisionSchema = z
  .object({
    act: z.enum(SIGNAL_ACTS, "Choose what was done"),
    note: linesSchema(LONGEST_NOTE, "Say in a few words what was done, or why"),
    holdsFrom: z.preprocess(left, z.string().regex(/^20\d\d-(0[1-9]|1[0-2])$/, "Write a month as 2026-01").optional()),
    /** Id of the revision that was shipped. */
    revision: z.preprocess(left, z.guid("There is no such revision").optional()),
    /** Decisions made so far, as the person saw it. */
    version: z.coerce.number().int().min(0),
  })
  .check(({ value, issues }) => {
    if (isChange(value.act) && value.holdsFrom === undefined) issues.push({ code: "custom", path: ["holdsFrom"], message: "Say from which month on it ships so, else before and after cannot be compared", input: value.holdsFrom });
  });
export type SignalDecision = z.output<typeof signalDecisionSchema>;

const listFilterSchema = z.object({ state: z.enum(SIGNAL_STATES).optional() });
export type SignalsFilter = z.output<typeof listFilterSchema>;

/** What the list shows, from its address; a state that there is not is passed over. */
export function readSignalsFilter(query: QueryParameters): SignalsFilter {
  const read = listFilterSchema.safeParse({ state: left(firstValues(query).state) });
  return read.success ? read.data : {};
}
