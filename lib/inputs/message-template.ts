import { z } from "zod";
import { TEMPLATE_GAPS, unknownGaps } from "@/lib/domain/claims/message-templates";
import { LONGEST } from "@/lib/domain/intake/fields";
import { lineSchema, linesSchema } from "./text";

const inBraces = (gaps: readonly string[]) => gaps.map((gap) => `{${gap}}`).join(", ");

const text = (missing: string) =>
  z.string().pipe(linesSchema(LONGEST.words, missing)).superRefine((typed, context) => {
    const unknown = unknownGaps(typed);
    if (unknown.length > 0) context.addIssue({ code: "custom", message: `No claim can fill ${inBraces(unknown)}. There are ${inBraces(TEMPLATE_GAPS)}` });
  });

/** A message template as it is typed: its name, and its text in both languages with gaps of the closed set. */
export const messageTemplateSchema = z.object({
  name: lineSchema(LONGEST.name, "Give it a name to find it by"),
  english: text("Write the text in English"),
  german: text("Write the text in German"),
});
export type MessageTemplateInput = z.output<typeof messageTemplateSchema>;
