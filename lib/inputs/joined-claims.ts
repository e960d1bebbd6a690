import { z } from "zod";
import { PAIR_UNITS } from "@/lib/domain/claims/pair-units";
import { parseReference } from "@/lib/domain/claims/reference";
import { LONGEST } from "@/lib/domain/intake/fields";
import { lineSchema } from "./text";

const reference = z
  .string()
  .transform((typed) => parseReference(typed) ?? "")
  .pipe(z.string().min(1, "Write the reference of the other claim, as it stands on its page"));

/** Another claim, by its reference, that has to do with this one, and in what way. */
export const linkClaimSchema = z.object({ reference, why: lineSchema(LONGEST.name) });
export type LinkClaimInput = z.output<typeof linkClaimSchema>;

/** The claim that goes on, where this one is the same complaint filed twice; `version` is of this one as it was seen. */
export const mergeClaimSchema = z.object({ into: reference, version: z.coerce.number().int().min(0) });
export type MergeClaimInput = z.output<typeof mergeClaimSchema>;

/** Which unit of a compound pair a claim is about, and the serials of both; nothing where it is no pair. */
export const pairUnitSchema = z.object({
  pairUnit: z
    .enum(["", ...PAIR_UNITS])
    .transform((unit) => unit || null),
  serial: lineSchema(LONGEST.code),
  otherSerial: lineSchema(LONGEST.code),
});
export type PairUnitInput = z.output<typeof pairUnitSchema>;
