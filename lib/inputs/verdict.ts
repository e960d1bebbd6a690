import { z } from "zod";
import { REMEDIES } from "@/lib/domain/claims/remedies";
import { VERDICT_BASES } from "@/lib/domain/claims/verdict";
import { ORIGINS } from "@/lib/domain/diagnosis/attributions";
import { LONGEST } from "@/lib/domain/intake/fields";
import { percentSchema } from "./settlement";
import { linesSchema } from "./text";

/** More would bury what the letter says. */
export const MOST_LETTER_PHOTOS = 6;

const cause = z.string().regex(/^C\d{2,3}$/, "Choose a cause");

/** A verdict as staff give it. Whether it needs a reason or a tick depends on the claim: the operation asks. */
export const verdictSchema = z.object({
  primaryCause: cause,
  contributingCauses: z.array(cause).max(10, "Choose ten contributing causes or fewer").default([]),
  origin: z.enum([...ORIGINS, ""]).catch("").transform((origin) => origin || null),
  basis: z.enum(VERDICT_BASES, "Choose what it rests on"),
  remedy: z.enum(REMEDIES, "Choose what is done"),
  /** What the remedy comes to in all, as typed: it is read in the seller's currency. Empty names no sum. */
  promised: z.string().max(LONGEST.number).default(""),
  /** Of that sum, what the seller bears in a hundred. */
  sellerPercent: percentSchema.default(100).transform((percent) => percent ?? 100),
  /** Held until the old part is back, as typed; empty holds nothing. */
  coreDeposit: z.string().max(LONGEST.number).default(""),
  paysCarriage: z.literal("yes").optional(),
  /** Photos that go with the letter. */
  letterPhotos: z.array(z.guid()).max(MOST_LETTER_PHOTOS, `Choose ${MOST_LETTER_PHOTOS} photos or fewer`).default([]),
  reason: z._default(linesSchema(LONGEST.words), ""),
  /** Stands in the letter, in words for the customer. */
  explanation: z._default(linesSchema(LONGEST.words), ""),
  /** "I have looked at this and decide it all the same", where drain or crankcase are still open. */
  decidesAllTheSame: z.literal("yes").optional(),
  /** Fingerprint of the letter the person read; empty before the first preview. */
  letterSeen: z.string().max(64).default(""),
  /** What the person saw, so that nothing newer is overwritten. */
  version: z.coerce.number().int().min(0),
  rankingId: z.guid().or(z.literal("")).transform((id) => id || null),
});
export type VerdictInput = z.output<typeof verdictSchema>;

/** A second person sends a verdict back. */
export const sendBackSchema = z.object({ note: linesSchema(LONGEST.words, "Write what is to be looked at again") });

export const appealSchema = z.object({ reason: linesSchema(LONGEST.words, "Write what speaks against the verdict") });

/** The values of a posted verdict form as the schema takes them. */
export function verdictFromForm(form: FormData): Record<string, unknown> {
  const { contributingCauses: _, letterPhotos: __, ...single } = Object.fromEntries([...form].filter(([, value]) => typeof value === "string"));
  return { ...single, contributingCauses: form.getAll("contributingCauses").filter((value) => value !== ""), letterPhotos: form.getAll("letterPhotos").filter((value) => value !== "") };
}
