import type { IntakeField } from "@/lib/domain/intake/fields";
import type { Say } from "@/lib/domain/say";
import { messagesOf, screenSchema, typedValues } from "@/lib/inputs/intake";

/** What is wrong with the answers of a screen, by field: the server's own check, before the round trip. */
export function checkScreen(fields: readonly IntakeField[], form: FormData, say: Say): Record<string, string> {
  const checked = screenSchema(fields, say).safeParse(typedValues(fields, form));
  return checked.success ? {} : messagesOf(checked.error);
}
