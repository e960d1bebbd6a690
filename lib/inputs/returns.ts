import { z } from "zod";
import type { Edition, FindingDefinition } from "@/lib/domain/diagnosis/knowledge";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import { findingField } from "@/lib/domain/intake/screens";
import type { Say } from "@/lib/domain/say";
import { linesSchema } from "./text";

export const authorisationSchema = z.object({
  /** The version of the claim that the person saw. */
  version: z.coerce.number().int().nonnegative(),
  note: linesSchema(LONGEST.words),
});

export const prolongSchema = z.object({
  days: z.coerce.number("Write a number of days").int("Write whole days").min(1, "Write 1 or more").max(90, "Write 90 or less"),
});

/** What the bench looks at: the unit itself, not where the oil was. Measurements come first, before it is stripped. */
export function benchFindings(edition: Edition): readonly FindingDefinition[] {
  const all = edition.findings.filter(({ kind, observers }) => kind !== "site" && observers.includes("bench"));
  return [...all.filter(({ kind }) => kind === "measurement"), ...all.filter(({ kind }) => kind !== "measurement")];
}

/** What becomes of the unit, and what no finding says. */
const BENCH_CLOSING_FIELDS: readonly IntakeField[] = [
  { name: "note", kind: "text", label: "Note (optional)", hint: "What no question above asks.", longest: LONGEST.words, lines: 3 },
  { name: "disposition", kind: "text", label: "What becomes of the unit", hint: "Such as: kept on shelf 4, sent back, scrapped.", longest: LONGEST.name, missing: "Say what becomes of the unit" },
];

/** The fields of a bench inspection. Each finding may be skipped. */
export function benchFields(edition: Edition, say: Say): IntakeField[] {
  const optional = benchFindings(edition).map((definition) => {
    const { missing: _, ...field } = findingField(definition, say);
    return field;
  });
  return [...optional, ...BENCH_CLOSING_FIELDS];
}
