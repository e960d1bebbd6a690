import { percent } from "@/app/_components/scale";
import type { DispositionDoubt } from "@/lib/domain/claims/dispositions";
import { type PlacedReading, rangeInWords } from "@/lib/domain/claims/play-readings";
import { type IntakeField, unitField } from "@/lib/domain/intake/fields";
import { cannotTell } from "@/lib/inputs/bench-inspection";
import type { Gauge, Move } from "@/lib/operations/load-inspection";

export const FINISH_PROBLEMS = {
  "not-on-the-bench": "This inspection was finished meanwhile, or the unit is no longer here",
  "held-by-another": "Somebody else has taken this inspection over",
} as const;

const DOUBTS: Readonly<Record<DispositionDoubt, string>> = {
  "not-inspected": "nobody has inspected it",
  "found-defective": "the verdict found it defective",
  "evidence-kept": "it is to be kept as evidence for longer",
  "gone-already": "it has left already, as far as is written here",
};

/** @example "Say why: nobody has inspected it" */
export const doubtsInWords = (doubts: readonly DispositionDoubt[]) => `Say why: ${doubts.map((doubt) => DOUBTS[doubt]).join(", and ")}`;

/** How far the ranking moved, as a sentence; null where it stayed. */
export function moveInWords({ unitBefore, unitAfter, leaderBefore, leaderAfter }: Move): string | null {
  const parts = [
    ...(unitAfter !== null && unitBefore !== null && percent(unitBefore) !== percent(unitAfter) ? [`unit at fault: ${percent(unitBefore)} \u2192 ${percent(unitAfter)}`] : []),
    ...(leaderAfter !== null && leaderBefore !== leaderAfter ? [`most likely now: ${leaderAfter}${leaderBefore ? `, before: ${leaderBefore}` : ""}`] : []),
  ];
  return parts.length > 0 ? parts.join("; ") : null;
}

const mm = (value: number) => `${Math.round(value * 1000) / 1000} mm`;

/** A reading as a sentence: within or beyond, by how much, and whether the gauge can tell. */
export function readingInWords(measuredMm: number, placed: PlacedReading, spreadMm: number, { range, of }: Pick<Gauge, "range" | "of">): string {
  const limit = `${rangeInWords({ min: range.min, max: Math.round(range.max * 1000) / 1000 })}, ${of}`;
  const where = placed.standing === "within" ? `within (${limit})` : placed.standing === "over" ? `over by ${mm(placed.beyondMm)} (${limit})` : `tighter by ${mm(placed.beyondMm)} than a sound one (${limit})`;
  return `${mm(measuredMm)}: ${where}. Good to ${mm(2 * spreadMm)}${placed.isClear ? "" : ": too near the limit to tell, gauge it again"}.`;
}

/** What a step holds, question by question; a question left open is left out. */
export function keptInWords(fields: readonly IntakeField[], typed: Readonly<Record<string, string>>): { question: string; answer: string }[] {
  return fields.flatMap((field) => {
    const value = typed[field.name] ?? "";
    if (typed[cannotTell(field.name)] === "yes") return [{ question: field.label, answer: "cannot tell" }];
    if (value === "") return [];
    if (field.kind === "choice") return [{ question: field.label, answer: field.options.find((option) => option.value === value)?.label ?? value }];
    if (field.kind === "number") return [{ question: field.label, answer: `${value} ${typed[unitField(field.name)] || field.storedUnit}` }];
    return [{ question: field.label.replace(" (optional)", ""), answer: value }];
  });
}
