import { z } from "zod";
import { IMPORT_FIELDS } from "@/lib/domain/imports/fields";
import { CHANGED_ROWS, IMPORT_KINDS, type ImportKind } from "@/lib/domain/imports/kinds";
import { DELIMITERS } from "@/lib/domain/imports/reading";
import { DATE_ORDERS } from "@/lib/domain/imports/read-value";

export const importKindSchema = z.enum(IMPORT_KINDS, "Say what the file holds");
/** Of the kinds, those that are sent out too. */
export const catalogueKindSchema = importKindSchema.exclude(["shipments"]);
export const importIdSchema = z.guid();

/** Of a file: more columns nobody matches. */
const MOST_COLUMNS = 500;

/** How a file is to be read, as a form posts it: `column-<field>` is the number of a column, or empty for none. */
export function importReadingSchema(kind: ImportKind) {
  const column = z
    .string()
    .regex(/^\d{0,3}$/, "There is no such column")
    .transform((typed) => (typed === "" ? null : Number(typed)))
    .refine((number) => number === null || number < MOST_COLUMNS, "There is no such column")
    .default(null);
  const columns = Object.fromEntries(IMPORT_FIELDS[kind].map(({ key }) => [`column-${key}`, column]));
  return z
    .object({
      ...columns,
      delimiter: z.enum(DELIMITERS, "Say what parts the columns"),
      dateOrder: z.enum(DATE_ORDERS, "Say how dates are written"),
      changed: z.enum(CHANGED_ROWS, "Say what becomes of rows that are there with other values"),
    })
    .transform(({ delimiter, dateOrder, changed, ...rest }) => {
      const given: Readonly<Record<string, unknown>> = rest;
      const columnOf = (key: string) => given[`column-${key}`];
      return { delimiter, dateOrder, changed, columns: Object.fromEntries(IMPORT_FIELDS[kind].map(({ key }) => [key, numberOrNull(columnOf(key))])) };
    });
}
export type WantedReading = z.output<ReturnType<typeof importReadingSchema>>;

const numberOrNull = (value: unknown) => (typeof value === "number" ? value : null);
