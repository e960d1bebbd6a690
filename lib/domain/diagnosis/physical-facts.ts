import type { MeasuredFinding, Quantity } from "./knowledge";

/** A physical fact that one reading tells, however many numbers it is made of. */
export type PhysicalFact =
  | "width of the drain"
  | "run of the drain"
  | "crankcase pressure"
  | "vent hose"
  | "blow-by"
  | "intake depression"
  | "size of the filter"
  | "oil feed"
  | "attitude"
  | "axial play"
  | "radial play"
  | "head budget";

interface Role {
  fact: PhysicalFact;
  /** Which way it gets worse. */
  worse: "lower" | "higher";
}

/** The fact a number is a reading of. Numbers that are not here only sharpen the readings of others. */
const ROLES: Readonly<Partial<Record<Quantity, Role>>> = {
  "drain-bore": { fact: "width of the drain", worse: "lower" },
  "drain-fall": { fact: "run of the drain", worse: "lower" },
  "drain-lowest-angle": { fact: "run of the drain", worse: "lower" },
  "crankcase-pressure": { fact: "crankcase pressure", worse: "higher" },
  "vent-bore": { fact: "vent hose", worse: "lower" },
  "blow-by": { fact: "blow-by", worse: "higher" },
  "intake-depression": { fact: "intake depression", worse: "higher" },
  "filter-flow": { fact: "size of the filter", worse: "lower" },
  "feed-pressure": { fact: "oil feed", worse: "higher" },
  "restrictor-bore": { fact: "oil feed", worse: "higher" },
  "outlet-angle": { fact: "attitude", worse: "higher" },
  "shaft-tilt": { fact: "attitude", worse: "higher" },
  "axial-play": { fact: "axial play", worse: "higher" },
  "radial-play-centre": { fact: "radial play", worse: "higher" },
  "radial-play-nose": { fact: "radial play", worse: "higher" },
  "head-budget": { fact: "head budget", worse: "lower" },
};

/** The fact that a finding of this quantity tells, or null. */
export function factOf(quantity: Quantity): PhysicalFact | null {
  return ROLES[quantity]?.fact ?? null;
}

/** Facts that physics reads without a limit from outside. */
const LIMIT_BY_PHYSICS: ReadonlySet<PhysicalFact> = new Set(["width of the drain", "run of the drain", "crankcase pressure", "vent hose", "size of the filter", "head budget"]);

/** Whether a finding of this quantity says nothing without a limit of its own. */
export function needsLimit(quantity: Quantity): boolean {
  const fact = factOf(quantity);
  return quantity !== "restrictor-bore" && (fact === null || !LIMIT_BY_PHYSICS.has(fact));
}

/** Whether it is worked out from other numbers, so that nobody is asked. */
export function isComputed(quantity: Quantity): boolean {
  return factOf(quantity) === "head budget";
}

/**
 * A number that tells clearly which side it lies on: for trying out what a check could bring.
 * Example: the bore of a drain, clearly too narrow, is the least plausible one.
 */
export function clearReading({ quantity, limit, plausible }: MeasuredFinding, isBeyond: boolean): number {
  if (limit) {
    const isAbove = (limit.side === "above-is-bad") === isBeyond;
    return Math.min(plausible.max, Math.max(plausible.min, limit.value + (isAbove ? 4 : -4) * limit.spread));
  }
  return (ROLES[quantity]?.worse === "higher") === isBeyond ? plausible.max : plausible.min;
}
