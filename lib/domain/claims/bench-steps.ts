import type { Edition, FindingCode, FindingDefinition } from "../diagnosis/knowledge";

/** An inspection in the order of the bench: what is undone last is looked at last, and the rig comes before the strip-down. */
export const BENCH_STEPS = ["identity", "outside", "outlet", "fore_and_aft", "radial", "rig", "rings", "wheels", "oilways", "other"] as const;
export type BenchStep = (typeof BENCH_STEPS)[number];

/** Most photos that the bench takes of one claim's units. */
export const MOST_BENCH_PHOTOS = 24;

/** The heading of each step, and what to do in one sentence. */
export const BENCH_STEP_WORDS: Readonly<Record<BenchStep, { name: string; lead: string }>> = {
  identity: { name: "Is it the unit", lead: "Read the plate and hold it against the claim before anything else." },
  outside: { name: "As it came", lead: "Look at crate and housings before you wipe anything off." },
  outlet: { name: "Drain outlet and flange", lead: "Look into the outlet with a lamp; keep the gasket if one is with it." },
  fore_and_aft: { name: "Play fore and aft", lead: "Turn the shaft by hand first, then gauge the whole travel." },
  radial: { name: "Play sideways", lead: "Gauge through the oil outlet; only the limit for that very place counts." },
  rig: { name: "Run on the rig", lead: "Before the unit is stripped, or not at all." },
  rings: { name: "Seal rings", lead: "Strip the shaft; one ring at each end." },
  wheels: { name: "Wheels and housings", lead: "Lamp on both wheels, then the housings." },
  oilways: { name: "Oilways and bearings", lead: "Journals, thrust faces and every oilway, under the lamp." },
  other: { name: "What else the knowledge asks", lead: "Findings that have no place of their own at the bench yet." },
};

/** Which step the findings of the trade belong to; one that an edition adds goes to `other`. */
const STEP_OF: Readonly<Partial<Record<FindingCode, BenchStep>>> = {
  F51: "outside",
  F18: "outlet",
  F40: "fore_and_aft",
  F41: "fore_and_aft",
  F42: "radial",
  F61: "radial",
  F48: "rig",
  F45: "rings",
  F43: "wheels",
  F44: "wheels",
  F49: "wheels",
  F46: "oilways",
  F47: "oilways",
};

/** Sealant or scraps in the outlet close the drain: what a technician would have said of the drain itself. */
export const CLOSED_OUTLET = { field: "sealant", value: "closing", finding: "F17", answer: "present" } as const;

/** What lies at the flange is seen at the bench as by any technician: the edition has figures for that look. */
const AS_TECHNICIAN: readonly FindingCode[] = ["F17", "F18"];

/** As whom the bench answers a finding: as itself, or as a technician where only theirs has figures; null where it does not answer. */
export function observerAtBench({ kind, code, observers }: FindingDefinition): "bench" | "technician" | null {
  // Where the oil was is not told by a unit that has travelled: what was left in it runs about.
  if (kind === "site") return null;
  if (observers.includes("bench")) return "bench";
  return AS_TECHNICIAN.includes(code) && observers.includes("technician") ? "technician" : null;
}

export interface StepFindings {
  step: BenchStep;
  findings: readonly FindingDefinition[];
}

/**
 * The steps of an inspection by this edition, each with the findings asked at it; `other` only where there are any.
 *
 * Example: edition 1 asks F40 and F41 at the play fore and aft; a finding `F64` that an edition adds for the bench is
 * asked at the end.
 */
export function benchSteps(edition: Edition): StepFindings[] {
  const asked = edition.findings.filter((finding) => observerAtBench(finding) !== null && finding.code !== CLOSED_OUTLET.finding);
  return BENCH_STEPS.map((step) => ({ step, findings: asked.filter(({ code }) => (STEP_OF[code] ?? "other") === step) })).filter(({ step, findings }) => step !== "other" || findings.length > 0);
}
