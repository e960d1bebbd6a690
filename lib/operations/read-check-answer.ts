import "server-only";
import type { FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { DONT_KNOW, findingField } from "@/lib/domain/intake/screens";
import { type TypedFinding, typedFinding } from "@/lib/domain/intake/typed-finding";
import { unitsFirst } from "@/lib/domain/intake/units-first";
import { messagesOf, type ScreenValues, screenSchema, typedValues } from "@/lib/inputs/intake";
import { sayIn } from "@/lib/messages/words";
import type { Reader } from "./edition-for-reader";

/** A check as it is put to a customer outside of the intake: a measurement may be declined there but not left empty. */
export function checkField(definition: FindingDefinition, { language, units }: Reader): IntakeField {
  const say = sayIn(language);
  const field = unitsFirst(findingField(definition, say), units);
  return field.kind === "number" ? { ...field, missing: say("claim.asked.missing") } : field;
}

/** What a customer answered to a check: what was found, null for "I can't tell", and the values as typed. */
export function readCheckAnswer(
  definition: FindingDefinition,
  form: FormData,
  reader: Reader,
): { ok: true; found: TypedFinding | null; values: ScreenValues } | { ok: false; reason: "refused"; messages: Record<string, string> } {
  const field = checkField(definition, reader);
  const values = typedValues([field], form);
  if (form.get("cannotTell") === "yes" || values[field.name] === DONT_KNOW) return { ok: true, found: null, values };
  const parsed = screenSchema([field], sayIn(reader.language)).safeParse(values);
  return parsed.success ? { ok: true, found: typedFinding(field, parsed.data), values: parsed.data } : { ok: false, reason: "refused", messages: messagesOf(parsed.error) };
}
