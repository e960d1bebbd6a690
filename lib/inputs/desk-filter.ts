import { z } from "zod";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";
import { DESK_FIGURE_NAMES } from "@/lib/domain/reporting/desk-quality";
import { selectionFilterSchema } from "./report-filter";

/** Quality of the desk: months of filing, and what else is given. */
export const deskFilterSchema = selectionFilterSchema.pick({ from: true, to: true, kit: true, vehicle: true });
export type DeskFilter = z.output<typeof deskFilterSchema>;

/** The claims behind one of its figures. */
export const deskClaimsFilterSchema = z.object({
  ...deskFilterSchema.shape,
  figure: z.enum(DESK_FIGURE_NAMES, "There is no such figure.").default("filed"),
  /** What staff laid it to, and what the scoring or the second opinion did. */
  first: z.enum(ATTRIBUTIONS, "There is no such attribution.").optional(),
  second: z.enum(ATTRIBUTIONS, "There is no such attribution.").optional(),
  page: z.coerce.number("A page is a number.").int("A page is a whole number.").min(1, "Pages begin with 1.").max(10_000, "There is no such page.").default(1),
});
export type DeskClaimsFilter = z.output<typeof deskClaimsFilterSchema>;

/** One of its tables as a file. */
export const deskFileSchema = z.object({ ...deskClaimsFilterSchema.shape, table: z.enum(["figures", "pairs", "overrules", "claims"], "There is no such table.").default("figures") });
export type DeskFileFilter = z.output<typeof deskFileSchema>;
