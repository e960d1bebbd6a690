import { z } from "zod";
import { LONGEST } from "@/lib/domain/intake/fields";
import { lineSchema } from "./text";

/** A share of the picture, typed in per cent. */
const share = (missing: string) =>
  z
    .string()
    .transform((typed) => Number(typed.trim().replace(",", ".").replace(/\s*%$/, "") || Number.NaN) / 100)
    .pipe(z.number(missing).min(0, missing).max(1, missing));

/** A mark on a photo: where, in per cent from the left and from the top, and a word on what is seen there. */
export const photoMarkSchema = z.object({
  x: share("Say how far from the left, 0 to 100"),
  y: share("Say how far from the top, 0 to 100"),
  word: lineSchema(LONGEST.name, "Write a word on what is seen there"),
});
export type PhotoMarkInput = z.output<typeof photoMarkSchema>;
