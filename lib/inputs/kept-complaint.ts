import { z } from "zod";
import { SCREENS } from "@/lib/domain/intake/answers";
import { LONGEST } from "@/lib/domain/intake/fields";

/** Longer than anything a screen takes: the screens' own schemas say what is too long. */
const typed = z.record(z.string().max(LONGEST.code), z.string().max(2 * LONGEST.words));

/** A complaint that a device has kept without a signal, as it sends it. What was typed is looked at screen by screen. */
export const keptComplaintSchema = z.object({
  filingKey: z.uuid(),
  reference: z.string().max(LONGEST.code).nullable(),
  answers: z.partialRecord(z.enum(SCREENS), typed),
  notSent: z.array(z.enum(SCREENS)).max(SCREENS.length),
  isSent: z.boolean(),
});
export type SentComplaint = z.infer<typeof keptComplaintSchema>;
