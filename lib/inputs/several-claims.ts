import { z } from "zod";
import { lineSchema } from "./text";

/** What may be done to several claims at once: nothing that decides one. */
export const SEVERAL_ACTS = ["take", "hand_over", "need_no_answer", "remind"] as const;
export type SeveralAct = (typeof SEVERAL_ACTS)[number];

/** As many as a page of the queue shows. */
const MOST_CLAIMS = 50;

const claims = z
  .union([z.array(z.string()), z.string().transform((only) => [only])])
  .optional()
  .transform((ids) => [...new Set(ids ?? [])].filter((id) => z.guid().safeParse(id).success).slice(0, MOST_CLAIMS));

/** The ticked claims and the act, in an address or a form; what is no claim is passed over. */
export const severalSchema = z.object({ act: z.enum(SEVERAL_ACTS).catch("take"), claim: claims });

/** To whom they are handed, and the word along. */
export const handOverSchema = z.object({ to: z.literal("").or(z.guid()).catch(""), note: lineSchema(300) });
