import { z } from "zod";
import { LONGEST } from "@/lib/domain/intake/fields";
import { linesSchema } from "./text";

export const authorisationSchema = z.object({
  /** The version of the claim that the person saw. */
  version: z.coerce.number().int().nonnegative(),
  note: linesSchema(LONGEST.words),
});

export const prolongSchema = z.object({
  days: z.coerce.number("Write a number of days").int("Write whole days").min(1, "Write 1 or more").max(90, "Write 90 or less"),
});
