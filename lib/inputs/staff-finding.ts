import type { FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import { LONGEST, type IntakeField } from "@/lib/domain/intake/fields";
import { findingField } from "@/lib/domain/intake/screens";

export const NOTE_FIELD: IntakeField = { name: "note", kind: "text", label: "How it is known (optional)", hint: "Told by telephone, seen on a photo ...", longest: LONGEST.words, lines: 2 };

/** The fields with which staff record one finding: the same question as the customer's, and a note. */
export function staffFindingFields(definition: FindingDefinition): IntakeField[] {
  const field = findingField(definition);
  return [field.kind === "number" ? { ...field, missing: "Write what was measured" } : field, NOTE_FIELD];
}
