import type { Remedy } from "../claims/remedies";
import type { Verdict } from "../claims/verdict";
import type { Attribution } from "../diagnosis/attributions";
import type { CauseCode, FindingCode } from "../diagnosis/knowledge";
import { type Agreement, cohenKappa } from "../statistics/cohen-kappa";
import type { Interval } from "../statistics/poisson-interval";
import { wilsonInterval } from "../statistics/wilson-interval";
import { summariseWaits, type Waits, type WaitSummary } from "./desk-waits";

/** What one person, or the scoring, makes of a claim. */
export interface Judgement {
  cause: CauseCode;
  attribution: Attribution;
}

/** What the quality of the desk knows of a claim, its waits apart: many claims have the same. */
export interface DeskFacts {
  /** A first answer within the promise or not; null while there is none. */
  answer: "in-time" | "late" | null;
  /** Without a first answer when the promise had passed: by now, or when the claim ended. */
  isOverdue: boolean;
  /** A verdict was given, though it may have been appealed since. */
  isDecided: boolean;
  /** Cleared, withdrawn, merged or lapsed. */
  hasEnded: boolean;
  wasCleared: boolean;
  /** The verdict that stands. */
  verdict: (Judgement & { remedy: Remedy; way: Verdict["way"] }) | null;
  /** What the ranking put first that the verdict was given on; its attribution with the origin that staff found. */
  scored: Judgement | null;
  /** A returned unit that was inspected, and whether a bench finding speaks of a fault of the unit. */
  inspection: { showsFault: boolean } | null;
  returnAuthorised: boolean;
  /** Whether by some ranking a return was expected to cost less than a defect that is missed. */
  wasSuspected: boolean;
  /** A second opinion beside the verdict it was given on. */
  opinions: { first: Judgement; second: Judgement } | null;
}

/** What the bench finds where the unit is not as it was made: seal ring, thrust bearing, journals, the rig, the housing. */
export const BENCH_FAULTS: readonly { finding: FindingCode; answer: string }[] = ["F45", "F46", "F47", "F48", "F49"].map((finding) => ({ finding, answer: "present" }));

/** So many claims with the same facts. */
export interface DeskGroup {
  facts: DeskFacts;
  claims: number;
}

/** Each figure of the report, by the claims it counts: the list behind a figure is made by the very rule that counted it. */
export const DESK_FIGURES = {
  filed: () => true,
  answered: ({ answer }) => answer !== null,
  unanswered: ({ answer, hasEnded }) => answer === null && !hasEnded,
  "on-time": ({ answer }) => answer === "in-time",
  late: ({ answer, isOverdue }) => answer === "late" || isOverdue,
  decided: ({ isDecided }) => isDecided,
  undecided: ({ isDecided, hasEnded }) => !isDecided && !hasEnded,
  inspected: (facts) => isJudgedAtBench(facts),
  "no-fault-found": (facts) => isJudgedAtBench(facts) && !facts.inspection?.showsFault && !blamesUnit(facts.verdict),
  compared: ({ verdict, scored }) => verdict !== null && scored !== null,
  "same-cause": ({ verdict, scored }) => verdict !== null && scored !== null && verdict.cause === scored.cause,
  "same-attribution": ({ verdict, scored }) => verdict !== null && scored !== null && verdict.attribution === scored.attribution,
  overruled: ({ verdict }) => verdict?.way === "overruled",
  opinions: ({ opinions }) => opinions !== null,
  "opinions-same-cause": ({ opinions }) => opinions !== null && opinions.first.cause === opinions.second.cause,
  "opinions-same-attribution": ({ opinions }) => opinions !== null && opinions.first.attribution === opinions.second.attribution,
  suspected: ({ wasSuspected }) => wasSuspected,
  "returns-avoided": (facts) => isReturnAvoided(facts),
} as const satisfies Readonly<Record<string, (facts: DeskFacts) => boolean>>;
export type DeskFigure = keyof typeof DESK_FIGURES;
export const DESK_FIGURE_NAMES = Object.keys(DESK_FIGURES) as [DeskFigure, ...DeskFigure[]];

/** Two who judged the same claims. */
export interface Comparison {
  pairs: number;
  /** Null without a pair. */
  causes: Agreement | null;
  attributions: Agreement | null;
  /** Claims by both attributions, the first's named first; only those that occur. */
  cells: readonly { first: Attribution; second: Attribution; claims: number }[];
}

export interface DeskQuality {
  counts: Readonly<Record<DeskFigure, number>>;
  firstAnswer: WaitSummary;
  verdict: WaitSummary;
  /** Share of first answers in time, of those that are due; null while none is. */
  inTime: Interval | null;
  noFaultFound: Interval | null;
  withScoring: Comparison;
  betweenStaff: Comparison;
  /** At what a needless return costs the seller, in its currency. */
  worthOfReturnsAvoided: number;
}

/** How wide the report's intervals are. */
export const DESK_CONFIDENCE = 0.9;

/**
 * Sums up how well the desk worked on these claims: how long people waited, whether the units that were sent in had to
 * be, how far scoring and staff agree.
 *
 * Source: shares with Wilson's interval, agreement with Cohen's kappa, waits by Kaplan and Meier's curve; see each.
 *
 * @example for one claim answered after 2 working hours the median first answer is 2 hours
 */
export function deskQuality(groups: readonly DeskGroup[], { firstAnswer, verdict, needlessReturn }: { firstAnswer: Waits; verdict: Waits; needlessReturn: number }): DeskQuality {
  const counts = Object.fromEntries(DESK_FIGURE_NAMES.map((figure) => [figure, claimsOf(groups.filter(({ facts }) => DESK_FIGURES[figure](facts)))])) as Record<DeskFigure, number>;
  return {
    counts,
    firstAnswer: summariseWaits(firstAnswer),
    verdict: summariseWaits(verdict),
    inTime: share(counts["on-time"], counts["on-time"] + counts.late),
    noFaultFound: share(counts["no-fault-found"], counts.inspected),
    withScoring: compare(groups.flatMap(({ facts: { verdict: first, scored: second }, claims }) => (first && second ? [{ first, second, claims }] : []))),
    betweenStaff: compare(groups.flatMap(({ facts: { opinions }, claims }) => (opinions ? [{ ...opinions, claims }] : []))),
    worthOfReturnsAvoided: counts["returns-avoided"] * needlessReturn,
  };
}

/** Whether a claim with these facts stands in one cell of a figure's table of what both laid it to. */
export function isInCell({ verdict, scored, opinions }: DeskFacts, figure: DeskFigure, { first, second }: { first?: Attribution | undefined; second?: Attribution | undefined }): boolean {
  const pair = figure.startsWith("opinions") ? opinions : verdict && scored && { first: verdict, second: scored };
  return (first === undefined || pair?.first.attribution === first) && (second === undefined || pair?.second.attribution === second);
}

export function claimsOf(groups: readonly { claims: number }[]): number {
  return groups.reduce((sum, { claims }) => sum + claims, 0);
}

function share(of: number, all: number): Interval | null {
  return all === 0 ? null : wilsonInterval(of, all, DESK_CONFIDENCE);
}

function isJudgedAtBench({ inspection, verdict }: DeskFacts): boolean {
  return inspection !== null && verdict !== null;
}

/** Damage in carriage is no fault of the unit's make, but a fault was found. */
function blamesUnit(verdict: Judgement | null): boolean {
  return verdict !== null && (verdict.attribution === "unit" || verdict.attribution === "transit");
}

const WITHOUT_RETURN: ReadonlySet<Remedy> = new Set(["advice", "part_sent"]);

/** The unit was suspected, was never asked for, and a check put it right or advice or a part did. */
function isReturnAvoided({ wasSuspected, returnAuthorised, wasCleared, verdict }: DeskFacts): boolean {
  return wasSuspected && !returnAuthorised && (wasCleared || (verdict !== null && !blamesUnit(verdict) && WITHOUT_RETURN.has(verdict.remedy)));
}

interface JudgedPair {
  first: Judgement;
  second: Judgement;
  claims: number;
}

function compare(pairs: readonly JudgedPair[]): Comparison {
  const cells = new Map<string, Comparison["cells"][number]>();
  for (const { first, second, claims } of pairs) {
    const key = `${first.attribution} ${second.attribution}`;
    cells.set(key, { first: first.attribution, second: second.attribution, claims: (cells.get(key)?.claims ?? 0) + claims });
  }
  return {
    pairs: claimsOf(pairs),
    causes: agreement(pairs, ({ cause }) => cause),
    attributions: agreement(pairs, ({ attribution }) => attribution),
    cells: [...cells.values()].sort((a, b) => b.claims - a.claims),
  };
}

function agreement(pairs: readonly JudgedPair[], nameOf: (judgement: Judgement) => string): Agreement | null {
  const classes = [...new Set(pairs.flatMap(({ first, second }) => [nameOf(first), nameOf(second)]))];
  const place = new Map(classes.map((name, index) => [name, index]));
  const table = classes.map(() => classes.map(() => 0));
  for (const { first, second, claims } of pairs) {
    const row = table[place.get(nameOf(first)) ?? 0];
    const column = place.get(nameOf(second)) ?? 0;
    if (row) row[column] = (row[column] ?? 0) + claims;
  }
  return cohenKappa(table, "exact");
}
