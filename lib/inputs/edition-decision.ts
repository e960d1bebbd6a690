import { z } from "zod";
import { linesSchema } from "./text";

const LONGEST_REASON = 1000;

/** Promoting or discarding an edition, with the reason that stands in its story. */
export const editionDecisionSchema = z.object({
  reason: linesSchema(LONGEST_REASON, "Say why"),
  /** The edition in force that the person has seen, where the proposed one was made from another. */
  inSpiteOf: z.coerce.number().int().positive().optional(),
});
export type EditionDecision = z.output<typeof editionDecisionSchema>;
