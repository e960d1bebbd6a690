import { z } from "zod";
import { LONGEST, parseTypedNumber } from "@/lib/domain/intake/fields";
import { emailSchema } from "./sign-in";
import { lineSchema, linesSchema } from "./text";

const LONGEST_ADDRESS = 500;
const clock = z
  .string()
  .trim()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, "Write the time as 08:00");
const whole = (least: number, most: number) =>
  z
    .string()
    .trim()
    .regex(/^\d{1,4}$/, "Write a whole number")
    .transform(Number)
    .refine((count) => count >= least && count <= most, `Write a number from ${least} to ${most}`);

/** A sum or a weight, with a comma or a point before the decimals. */
const amount = (least: number, most: number) =>
  z
    .string()
    .trim()
    .transform((typed) => parseTypedNumber(typed) ?? Number.NaN)
    .refine(Number.isFinite, { message: "Write a number, as 12.50", abort: true })
    .refine((value) => value >= least && value <= most, `Write a number from ${least} to ${most}`);

function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

/** The seller's settings as typed; `workingDays` holds the ISO 8601 numbers of the ticked weekdays. */
export const settingsSchema = z
  .object({
    name: lineSchema(LONGEST.name, "Write the name customers know"),
    returnAddress: linesSchema(LONGEST_ADDRESS, "Write where units are sent"),
    email: emailSchema,
    phone: lineSchema(LONGEST.phone),
    currency: z
      .string()
      .trim()
      .toUpperCase()
      .refine((code) => Intl.supportedValuesOf("currency").includes(code), "Write the three letters of a currency, as EUR"),
    timeZone: z.string().trim().refine(isTimeZone, "Write a time zone, as Europe/Berlin"),
    workingDays: z.array(z.coerce.number().int().min(1).max(7)).min(1, "Tick the days on which somebody answers"),
    opensAt: clock,
    closesAt: clock,
    promisedAnswerHours: whole(1, 200),
    returnWithinDays: whole(1, 365),
    firstReminderDays: whole(1, 365),
    secondReminderDays: whole(1, 365),
    lapseNoticeDays: whole(1, 365),
    lapseDays: whole(1, 365),
    secondOpinionShare: whole(0, 100),
    secondPersonAbove: whole(0, 9999),
    unitCost: amount(0, 100_000),
    unitPrice: amount(0, 100_000),
    repairCost: amount(0, 100_000),
    partCost: amount(0, 100_000),
    carriageCost: amount(0, 100_000),
    goodwillCost: amount(0, 100_000),
    needlessReturnCost: amount(1, 100_000),
    missedDefectCost: amount(1, 100_000),
    wrongAdviceCost: amount(0, 100_000),
    customerMinute: amount(0.01, 100),
    technicianMinute: amount(0.01, 100),
    benchMinute: amount(0.01, 100),
    lowCheck: amount(0, 100_000),
    middleCheck: amount(0, 100_000),
    highCheck: amount(0, 100_000),
    cautionCost: amount(0, 1_000),
  })
  .refine(({ opensAt, closesAt }) => opensAt < closesAt, { path: ["closesAt"], message: "It must be later than the opening" })
  .refine(({ firstReminderDays, secondReminderDays }) => firstReminderDays < secondReminderDays, { path: ["secondReminderDays"], message: "It must come after the first" })
  .refine(({ secondReminderDays, lapseNoticeDays }) => secondReminderDays < lapseNoticeDays, { path: ["lapseNoticeDays"], message: "It must come after the second reminder" })
  .refine(({ lapseNoticeDays, lapseDays }) => lapseNoticeDays < lapseDays, { path: ["lapseDays"], message: "It must come after the notice" })
  .refine(({ lowCheck, middleCheck }) => lowCheck <= middleCheck, { path: ["middleCheck"], message: "It must be no less than the class below" })
  .refine(({ middleCheck, highCheck }) => middleCheck <= highCheck, { path: ["highCheck"], message: "It must be no less than the class below" });
