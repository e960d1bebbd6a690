import { z } from "zod";
import { PARCEL_CONDITIONS, PLACE_KINDS } from "@/lib/domain/claims/custody";
import { compareSerials } from "@/lib/domain/claims/serials";
import { LONGEST } from "@/lib/domain/intake/fields";
import { lineSchema, linesSchema } from "./text";

const placeCode = z
  .string()
  .trim()
  .toUpperCase()
  .max(LONGEST.code)
  .regex(/^[A-Z0-9]+(-[A-Z0-9]+)*$/, "Use letters, figures and single hyphens, as SHELF-4");
const condition = z.union([z.enum(PARCEL_CONDITIONS), z.literal("").transform(() => null)]).default(null);
const note = z.string().default("").pipe(linesSchema(LONGEST.words));

/** What was scanned or typed into the one field. */
export const scannedSchema = z.string().max(400);

/** The unit is here, with the serial that is read on it, and of a pair that of the other unit where both have come, its condition and, in words, its seal or what a photo shows. */
export const receiptSchema = z
  .object({
    returnId: z.uuid(),
    serialSeen: lineSchema(LONGEST.code),
    /** Of the other unit of a compound pair. */
    otherSerialSeen: z.string().pipe(lineSchema(LONGEST.code)).optional(),
    condition: condition.optional(),
    note: note.optional(),
  })
  .refine(({ serialSeen, otherSerialSeen }) => compareSerials(serialSeen, otherSerialSeen ?? null) !== "matches", { path: ["otherSerialSeen"], message: "This is the serial of the first unit" });

export const handoverSchema = z.object({
  parcelId: z.uuid(),
  /** Number of the last handover that the person saw. */
  seen: z.coerce.number().int().nonnegative(),
  to: placeCode,
  /** Where it was found, if that is not where it was last said to be. */
  found: z.union([placeCode, z.literal("").transform(() => undefined)]).optional(),
  condition,
  note,
});

/** A parcel that is not the unit of a return, as it stands on and in it. */
export const strayParcelSchema = z.object({
  /** Made with the form: what is sent twice is taken in once. */
  id: z.uuid(),
  /** Of the return it came under, if there is one. */
  returnNumber: z.string().trim().max(40).default(""),
  reason: z.enum(["no_number", "second_parcel", "wrong_part"]),
  holds: lineSchema(LONGEST.words, "Say what is in it, or that it was not opened"),
  serial: z.string().default("").pipe(lineSchema(LONGEST.code)),
  sender: z.string().default("").pipe(linesSchema(LONGEST.words)),
  condition,
  note,
});

export const parcelMatchSchema = z.object({ reference: lineSchema(40, "Write the reference of the claim, or a return number") });
export const parcelClosingSchema = z.object({ closing: linesSchema(LONGEST.words, "Say what becomes of the parcel") });

/** How somebody knows that it is the unit of the claim, or that it is not. */
export const serialDecisionSchema = z.object({ returnId: z.uuid(), note: linesSchema(LONGEST.words, "Write how you know") });

export const placeSchema = z.object({
  code: placeCode,
  name: lineSchema(LONGEST.name, "Write what people call it"),
  kind: z.enum(PLACE_KINDS),
  position: z.coerce.number("Write a whole number").int("Write a whole number").min(0, "Write 0 or more").max(999, "Write 999 or less"),
});
