import { FINDING_SOURCES, type FindingSource } from "@/lib/domain/claims/finding-sources";
import type { FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import { findingField } from "@/lib/domain/intake/screens";
import type { Say } from "@/lib/domain/say";

const NOTE_FIELD: IntakeField = { name: "note", kind: "text", label: "Note (optional)", hint: "Who said it and when, which photo ...", longest: LONGEST.words, lines: 2 };

/** The fields with which staff record one finding: the same question as the customer's, how it is known, and a note. */
export function staffFindingFields(definition: FindingDefinition, say: Say): IntakeField[] {
  const field = findingField(definition, say);
  return [field.kind === "number" ? { ...field, missing: "Write what was measured" } : field, sourceField(definition), NOTE_FIELD];
}

/** Nobody measures on a photo, and a customer is not asked for what takes a technician. */
function sourceField({ kind, observers }: FindingDefinition): IntakeField {
  const possible = (Object.keys(FINDING_SOURCES) as FindingSource[]).filter((source) => observers.includes(FINDING_SOURCES[source].observer) && !(source === "photo" && kind === "measurement"));
  return { name: "source", kind: "choice", label: "How is it known?", missing: "Say how it is known", options: possible.map((value) => ({ value, label: FINDING_SOURCES[value].label })) };
}
