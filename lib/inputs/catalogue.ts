import { z } from "zod";
import { BEARINGS, FUELS, isAnswerTime, STAGINGS } from "@/lib/domain/catalogue/entries";
import { LONGEST, parseTypedNumber } from "@/lib/domain/intake/fields";
import { emailSchema } from "./sign-in";
import { lineSchema, linesSchema } from "./text";

const LONGEST_CODE = 40;
const LONGEST_CHANGE = 500;
const LONGEST_ADDRESS = 200;

const code = lineSchema(LONGEST_CODE, "Write its code");
const name = lineSchema(LONGEST.name, "Write its name");

/** A number above nothing as typed, with a comma or a point before the decimals. */
const above0 = (most: number, example: string, unit: string) =>
  z
    .string()
    .transform((typed) => parseTypedNumber(typed) ?? Number.NaN)
    .refine(Number.isFinite, { message: `Write a number, as ${example}`, abort: true })
    .refine((value) => value > 0 && value <= most, `Write a number above 0 and up to ${most.toLocaleString("en")}${unit}`);
const millimetres = (most: number) => above0(most, "0.09", " mm");

const year = z
  .string()
  .trim()
  .regex(/^(19|20)\d\d$/, "Write a year, as 2014")
  .transform(Number);

const day = z.iso.date("Write a day, as 2026-02-01").transform((typed) => new Date(typed));
const optional = <Schema extends z.ZodType>(schema: Schema) => z.union([z.literal("").transform(() => null), schema]);

const maker = optional(z.guid("Choose a supplier"));

/** A supplier as typed. */
export const supplierSchema = z.object({
  code,
  name,
  email: emailSchema,
  address: lineSchema(LONGEST_ADDRESS),
  answerWithinDays: z.string().trim().transform(Number).refine(isAnswerTime, "Write whole days, from 1 to 365"),
  retiredOn: optional(day),
});

/** A turbo model as typed: the limits a bench inspection reads play against, and the bore of its drain. */
export const turboModelSchema = z
  .object({
    code,
    name,
    bearing: z.enum(BEARINGS, "Choose a bearing"),
    staging: z.enum(STAGINGS, "Choose a stage"),
    axialPlayMinMm: millimetres(2),
    axialPlayMaxMm: millimetres(2),
    radialPlayMaxMm: millimetres(3),
    drainBoreMm: millimetres(60),
    replacementCost: optional(above0(1_000_000, "480", "")),
    supplierId: maker,
  })
  .refine(({ axialPlayMinMm, axialPlayMaxMm }) => axialPlayMinMm < axialPlayMaxMm, { path: ["axialPlayMaxMm"], message: "It must be more than the least play" });

/** A vehicle as typed. */
export const vehicleSchema = z
  .object({
    make: lineSchema(LONGEST.name, "Write the make"),
    model: lineSchema(LONGEST.name, "Write the model"),
    engine: lineSchema(LONGEST.name, "Write the engine"),
    fuel: z.enum(FUELS, "Choose the fuel"),
    yearFrom: year,
    yearTo: optional(year),
  })
  .refine(({ yearFrom, yearTo }) => yearTo === null || yearTo >= yearFrom, { path: ["yearTo"], message: "It cannot be before the first year" });

/** A kit as typed, with the vehicles it fits. */
export const kitSchema = z.object({
  code,
  name,
  turboModelId: optional(z.guid("Choose a turbo model")),
  supplierId: maker,
  retiredOn: optional(day),
  fits: z.array(z.guid()),
});

/** A revision of a kit as typed. */
export const kitRevisionSchema = z.object({
  revision: lineSchema(LONGEST_CODE, "Write the letter or number of the revision"),
  introducedOn: day,
  change: linesSchema(LONGEST_CHANGE),
});

/** A fitter as typed: customers write the same garage in more than one way. */
export const fitterSchema = z.object({ name, place: lineSchema(LONGEST.name) });

/** The fitter that another one turns out to be. */
export const sameFitterSchema = z.object({ into: z.guid("Choose the one to keep") });
