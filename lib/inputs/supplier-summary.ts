import { z } from "zod";
import { selectionFilterSchema } from "./report-filter";
import { lineSchema, linesSchema } from "./text";

/** Paper of the summary. */
export const PAPERS = ["A4", "LETTER"] as const;
export type Paper = (typeof PAPERS)[number];

export const MOST_PHOTOS = 8;

/** What a summary for a supplier is about: a kit or a batch at least, or it would tell of the whole shop. */
export const supplierSelectionSchema = selectionFilterSchema.pick({ from: true, to: true, kit: true, revision: true, vehicle: true, batch: true, cause: true });
export type SupplierSelection = z.output<typeof supplierSelectionSchema>;

export const supplierSummarySchema = z
  .object({
    ...supplierSelectionSchema.shape,
    paper: z.enum(PAPERS, "The paper is A4 or LETTER."),
    supplier: lineSchema(120),
    ask: linesSchema(2_000, "Write what is asked of the supplier."),
    photos: z.array(z.guid("There is no such photo.")).max(MOST_PHOTOS, `Choose ${MOST_PHOTOS} photos or fewer.`),
    looked: z.literal("yes").optional(),
  })
  .refine(({ from, to }) => from <= to, { path: ["to"], message: "The last month lies before the first." })
  .refine(({ photos, looked }) => photos.length === 0 || looked === "yes", { path: ["looked"], message: "Look at each photo chosen and tick that none shows whose it is." });
export type SupplierSummaryInput = z.output<typeof supplierSummarySchema>;
