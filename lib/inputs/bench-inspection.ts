import { z } from "zod";
import { type BenchStep, CLOSED_OUTLET, type StepFindings } from "@/lib/domain/claims/bench-steps";
import { DISPOSITIONS } from "@/lib/domain/claims/dispositions";
import { type IntakeField, LONGEST } from "@/lib/domain/intake/fields";
import { DONT_KNOW, findingField } from "@/lib/domain/intake/screens";
import type { Say } from "@/lib/domain/say";
import { linesSchema } from "./text";

const CANNOT_TELL = { value: DONT_KNOW, label: "Cannot tell" };

/** The tick beside a number that could not be taken. */
export const cannotTell = (code: string) => `${code}-cannot-tell`;

/** What is looked at and has no figure in the knowledge: it stands in the inspection and moves no ranking. */
const FACTS: Readonly<Partial<Record<BenchStep, readonly IntakeField[]>>> = {
  identity: [
    {
      name: "plate",
      kind: "choice",
      label: "Is it the serial shown above?",
      options: [
        { value: "same", label: "Yes, this serial" },
        { value: "other", label: "No, another one", detail: "Write it below" },
        { value: "unreadable", label: "The plate cannot be read" },
      ],
    },
    { name: "serialRead", kind: "text", label: "The serial as it stands on the plate", longest: LONGEST.code, signs: "code", missing: "Write the serial that stands on the plate", shownWhen: { field: "plate", values: ["other"] } },
  ],
  outside: [
    { name: "plugs", kind: "choice", label: "Were the ports plugged?", options: [{ value: "all", label: "All of them" }, { value: "some", label: "Some" }, { value: "none", label: "None" }, CANNOT_TELL] },
    {
      name: "oilSeen",
      kind: "choice",
      label: "Where is it wet now?",
      hint: "Oil runs about in carriage, so this moves no ranking; it stands in the record.",
      options: [{ value: "turbine", label: "Turbine side" }, { value: "compressor", label: "Compressor side" }, { value: "both", label: "Both sides" }, { value: "outside", label: "Outside only" }, { value: "dry", label: "Dry" }, CANNOT_TELL],
    },
  ],
  outlet: [
    {
      name: CLOSED_OUTLET.field,
      kind: "choice",
      label: "Is there sealant at the outlet?",
      hint: "Sealant or scraps in the hole count as a closed drain.",
      options: [{ value: CLOSED_OUTLET.value, label: "In the hole, closing part of it" }, { value: "flange", label: "On the flange only" }, { value: "none", label: "None" }, CANNOT_TELL],
    },
    { name: "gasket", kind: "choice", label: "How is the gasket?", options: [{ value: "whole", label: "Whole" }, { value: "torn", label: "Torn or squeezed out" }, { value: "missing", label: "None with it" }, CANNOT_TELL] },
  ],
};

const NOTE: IntakeField = { name: "note", kind: "text", label: "Note (optional)", longest: LONGEST.words, lines: 3 };

/** The fields of one step: what has no figure first, then the findings, each of which may be left open. */
export function stepFields({ step, findings }: StepFindings, say: Say): IntakeField[] {
  const asked = findings.map((definition): IntakeField => {
    const { missing: _, ...field } = findingField(definition, say);
    return field.kind === "choice" ? { ...field, options: [...field.options.filter(({ value }) => value !== DONT_KNOW), CANNOT_TELL] } : field;
  });
  return [...(FACTS[step] ?? []), ...asked, NOTE];
}

export const finishSchema = z.object({ note: linesSchema(LONGEST.words) });

/** A day as a browser's calendar posts it. */
const daySchema = z.string().regex(/^(\d{4}-\d{2}-\d{2})?$/, "Choose a day");

export const dispositionSchema = z
  .object({
    returnId: z.guid(),
    kind: z.enum(DISPOSITIONS, "Choose what becomes of the unit"),
    keepUntil: daySchema.default(""),
    reason: linesSchema(LONGEST.words),
    /** The disposition that the person saw; empty where there was none. */
    seen: z.string().max(40).default(""),
  })
  .refine(({ kind, keepUntil }) => kind !== "held_as_evidence" || keepUntil !== "", { path: ["keepUntil"], message: "Say until which day it is kept" });
