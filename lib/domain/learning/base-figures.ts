import type { CauseCode, Edition, Figure, FindingDefinition } from "../diagnosis/knowledge";
import { boundedMove } from "./bounded-move";
import type { Exposure } from "./training-example";
import { chanceWith, type GroupCounts, sitesOf, type VerdictCounts } from "./verdict-counts";

/** What the edition's own base figure counts for, in verdicts on the cause (judgement). */
export const PRIOR_VERDICTS = 4;
/** Circumstances of a group are drawn to those of all as if so many verdicts had been seen there. */
const PRIOR_OTHERS = 10;

/** Units behind the verdicts: those shipped, in the share in which their claims have been decided. */
export function unitsBehind(shipped: number, exposure: Exposure, verdicts: number): number {
  return shipped * (exposure.claims > 0 ? Math.min(1, verdicts / exposure.claims) : 1);
}

/**
 * Chance that a unit with this cause alone is complained of: that its owner sees some site wet.
 *
 * Example: links of 0.7 and 0.3 make 1 - 0.3 * 0.7 = 0.79.
 */
function chanceOfComplaint(code: CauseCode, findings: readonly FindingDefinition[]): number {
  return 1 - sitesOf(findings).reduce((dry, site) => dry * (1 - chanceWith(site, "customer", (cause) => cause === code)), 1);
}

/** The verdicts, what they are set against, and the findings as they were learned: how sure a leak is to be seen. */
export interface Learning {
  counts: VerdictCounts;
  exposure: Exposure;
  findings: readonly FindingDefinition[];
}

/** How often the circumstances of a group multiply the odds of a cause, judged by the verdicts on other causes. */
function meanShift(group: GroupCounts, all: GroupCounts, place: number): number {
  const overall = (all.others[place] ?? 0) > 0 ? (all.shifts[place] ?? 0) / (all.others[place] ?? 1) : 1;
  return (PRIOR_OTHERS * overall + (group.shifts[place] ?? 0)) / (PRIOR_OTHERS + (group.others[place] ?? 0));
}

/**
 * Verdicts on a cause to be expected of so many units: units, times the base figure, times what the circumstances of
 * the group make of it, times the chance that it is complained of. What a circumstance says of a kit is thereby not
 * learned a second time as experience with that kit.
 */
export function expectedVerdicts(base: number, place: number, units: number, group: GroupCounts, { counts, findings }: Learning): number {
  const code = counts.edition.causes[place]?.code ?? "";
  return units * base * meanShift(group, counts.all, place) * chanceOfComplaint(code, findings);
}

/** Mean weight of the verdicts that name a cause; of all verdicts where none does. */
export function weightOfVerdicts(group: GroupCounts, place: number): number {
  const named = group.named[place] ?? 0;
  if (named > 0) return (group.namedWeight[place] ?? 0) / named;
  return group.verdicts > 0 ? group.weight / group.verdicts : 0;
}

/** Verdicts on a cause, seen and expected, and the base figure that they make. */
export interface BaseFromVerdicts {
  observed: number;
  expected: number;
  units: number;
  value: number;
}

/**
 * Base figure of a cause after counting verdicts. The number of verdicts on it is Poisson, and what is known of its rate
 * beforehand a Gamma of so many verdicts' worth around the edition's figure, so that
 *
 *     base = base before * (prior verdicts + weight * observed) / (prior verdicts + weight * expected)
 *
 * The weight stands on both sides: verdicts on a customer's word make the figure less sure, not smaller. Few verdicts
 * move little, many move much. Source: Gamma-Poisson shrinkage (Clayton and Kaldor, Biometrics 43, 1987, from memory).
 *
 * Example: 20 verdicts of weight 0.5 where 8 were expected move a base of 0.002 by 14 / 8 to 0.0035.
 */
export function baseFromVerdicts(learning: Learning, place: number): BaseFromVerdicts {
  const { counts, exposure } = learning;
  const before = counts.edition.causes[place]?.base.value ?? 0;
  const shipped = exposure.kits.reduce((sum, one) => sum + one.shipped, 0);
  const units = unitsBehind(shipped, exposure, counts.all.verdicts);
  const expected = expectedVerdicts(before, place, units, counts.all, learning);
  const observed = counts.all.named[place] ?? 0;
  const weight = weightOfVerdicts(counts.all, place);
  return { observed, expected, units, value: (before * (PRIOR_VERDICTS + weight * observed)) / (PRIOR_VERDICTS + weight * expected) };
}

/** Base figures with their counts, in the order of the causes the counts go by; each moved only so far from the one in force. */
export function learnBaseFigures(learning: Learning, present: Edition): Figure[] {
  return learning.counts.edition.causes.map(({ code, base }, place): Figure => {
    const inForce = present.causes.find((cause) => cause.code === code)?.base ?? base;
    const { observed, expected, units, value } = baseFromVerdicts(learning, place);
    if (units <= 0) return inForce;
    const note = `verdicts naming it ${round(observed)}, expected ${round(expected)}; before ${base.value.toPrecision(3)}`;
    const hits = Math.round(observed);
    return { value: boundedMove(inForce.value, value), provenance: { kind: "learned", note, counts: { of: Math.max(1, hits, Math.round(units)), hits } } };
  });
}

/** For a note, never for a formula. */
export function round(count: number): string {
  return count.toFixed(count < 10 && !Number.isInteger(count) ? 1 : 0);
}
