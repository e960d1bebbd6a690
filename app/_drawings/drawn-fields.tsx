import type { DrawnField } from "@/app/_components/question-field";
import { helpFor } from "@/app/_measuring/help-for";
import type { UnitSystem } from "@/lib/domain/claims/unit-systems";
import type { IntakeField } from "@/lib/domain/intake/fields";
import { sayIn, type Words } from "@/lib/messages/words";
import { drawingsOf } from "./asked-drawing";

/** What is drawn with the fields of a form that ask for findings, and the help to measure them, by the field's name. */
export function drawnFields(fields: readonly IntakeField[], units: UnitSystem, words: Words): Readonly<Record<string, DrawnField>> {
  const say = sayIn(words.language);
  return Object.fromEntries(fields.map(({ name }) => [name, { ...drawingsOf(name, say), help: helpFor(name, units, words) }]));
}
