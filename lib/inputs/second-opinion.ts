import { z } from "zod";
import { ATTRIBUTIONS } from "@/lib/domain/diagnosis/attributions";

/** A second opinion as it is given. */
export const secondOpinionSchema = z.object({
  primaryCause: z.string().regex(/^C\d{2,3}$/, "Choose a cause"),
  attribution: z.enum(ATTRIBUTIONS, "Choose what it lies with"),
});
export type SecondOpinionInput = z.output<typeof secondOpinionSchema>;
