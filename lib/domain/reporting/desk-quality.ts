import type { Remedy } from "../claims/remedies";
import type { Verdict } from "../claims/verdict";
import type { Attribution } from "../diagnosis/attributions";
import type { CauseCode } from "../diagnosis/knowledge";
import { type Agreement, cohenKappa } from "../statistics/cohen-kappa";
import type { Interval } from "../statistics/poisson-interval";
import { wilsonInterval } from "../statistics/wilson-interval";
import { summariseWaits, type Wait, type WaitSummary } from "./desk-waits";

/** What one person, or the scoring, makes of a claim. */
export interface Judgement {
  cause: CauseCode;
  attribution: Attribution;
}

/** One claim as the quality of the desk sees it. */
export interface DeskClaim {
  filedAt: Date;
  promisedAt: Date;
  firstAnswerAt: Date | null;
  /** Of the first verdict, though it may have been appealed since. */
  firstDecidedAt: Date | null;
  /** When it was cleared, withdrawn, merged or lapsed. */
  endedAt: Date | null;
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

/** Each figure of the report, by the claims it counts: the list behind a figure is made by the very rule that counted it. */
export const DESK_FIGURES = {
  filed: () => true,
  answered: ({ firstAnswerAt }) => firstAnswerAt !== null,
  unanswered: ({ firstAnswerAt, endedAt }) => firstAnswerAt === null && endedAt === null,
  "on-time": (claim) => firstAnswerIn(claim) === "on-time",
  late: (claim, now) => firstAnswerIn(claim, now) === "late",
  decided: ({ firstDecidedAt }) => firstDecidedAt !== null,
  undecided: ({ firstDecidedAt, endedAt }) => firstDecidedAt === null && endedAt === null,
  inspected: (claim) => isJudgedAtBench(claim),
  "no-fault-found": (claim) => isJudgedAtBench(claim) && !claim.inspection?.showsFault && !blamesUnit(claim.verdict),
  compared: ({ verdict, scored }) => verdict !== null && scored !== null,
  "same-cause": ({ verdict, scored }) => verdict !== null && scored !== null && verdict.cause === scored.cause,
  "same-attribution": ({ verdict, scored }) => verdict !== null && scored !== null && verdict.attribution === scored.attribution,
  overruled: ({ verdict }) => verdict?.way === "overruled",
  opinions: ({ opinions }) => opinions !== null,
  "opinions-same-cause": ({ opinions }) => opinions !== null && opinions.first.cause === opinions.second.cause,
  "opinions-same-attribution": ({ opinions }) => opinions !== null && opinions.first.attribution === opinions.second.attribution,
  suspected: ({ wasSuspected }) => wasSuspected,
  "returns-avoided": (claim) => isReturnAvoided(claim),
} as const satisfies Readonly<Record<string, (claim: DeskClaim, now: Date) => boolean>>;
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
 * @param workingHours between two instants
 * @example for one claim filed on Monday 09:00 and answered at 11:00, both working, the median first answer is 2 hours
 */
export function deskQuality(claims: readonly DeskClaim[], { now, workingHours, needlessReturn }: { now: Date; workingHours: (from: Date, to: Date) => number; needlessReturn: number }): DeskQuality {
  const counts = Object.fromEntries(DESK_FIGURE_NAMES.map((figure) => [figure, claims.filter((claim) => DESK_FIGURES[figure](claim, now)).length])) as Record<DeskFigure, number>;
  const waits = (until: (claim: DeskClaim) => Date | null) => summariseWaits(claims.map((claim): Wait => waitOf(claim, until(claim), now)), workingHours);
  return {
    counts,
    firstAnswer: waits(({ firstAnswerAt }) => firstAnswerAt),
    verdict: waits(({ firstDecidedAt }) => firstDecidedAt),
    inTime: share(counts["on-time"], counts["on-time"] + counts.late),
    noFaultFound: share(counts["no-fault-found"], counts.inspected),
    withScoring: compare(claims.flatMap(({ verdict, scored }) => (verdict && scored ? [{ first: verdict, second: scored }] : []))),
    betweenStaff: compare(claims.flatMap(({ opinions }) => opinions ?? [])),
    worthOfReturnsAvoided: counts["returns-avoided"] * needlessReturn,
  };
}

/** A claim that ended without it was watched until then, an open one until now. */
function waitOf({ filedAt, endedAt }: DeskClaim, until: Date | null, now: Date): Wait {
  return { from: filedAt, to: until ?? endedAt ?? now, isOver: until !== null };
}

function share(of: number, all: number): Interval | null {
  return all === 0 ? null : wilsonInterval(of, all, DESK_CONFIDENCE);
}

/** `null` where the promise is not due yet, or the claim ended before it was. */
function firstAnswerIn({ firstAnswerAt, promisedAt, endedAt }: DeskClaim, now?: Date): "on-time" | "late" | null {
  if (firstAnswerAt !== null) return firstAnswerAt <= promisedAt ? "on-time" : "late";
  const watchedUntil = endedAt ?? now;
  return watchedUntil !== undefined && watchedUntil > promisedAt ? "late" : null;
}

function isJudgedAtBench({ inspection, verdict }: DeskClaim): boolean {
  return inspection !== null && verdict !== null;
}

/** Damage in carriage is no fault of the unit's make, but a fault was found. */
function blamesUnit(verdict: Judgement | null): boolean {
  return verdict !== null && (verdict.attribution === "unit" || verdict.attribution === "transit");
}

const WITHOUT_RETURN: ReadonlySet<Remedy> = new Set(["advice", "part_sent"]);

/** The unit was suspected, was never asked for, and a check put it right or advice or a part did. */
function isReturnAvoided({ wasSuspected, returnAuthorised, wasCleared, verdict }: DeskClaim): boolean {
  return wasSuspected && !returnAuthorised && (wasCleared || (verdict !== null && !blamesUnit(verdict) && WITHOUT_RETURN.has(verdict.remedy)));
}

function compare(pairs: readonly { first: Judgement; second: Judgement }[]): Comparison {
  const cells = new Map<string, { first: Attribution; second: Attribution; claims: number }>();
  for (const { first, second } of pairs) {
    const key = `${first.attribution} ${second.attribution}`;
    const cell = cells.get(key) ?? { first: first.attribution, second: second.attribution, claims: 0 };
    cells.set(key, { ...cell, claims: cell.claims + 1 });
  }
  return {
    pairs: pairs.length,
    causes: agreement(pairs.map(({ first, second }) => [first.cause, second.cause])),
    attributions: agreement(pairs.map(({ first, second }) => [first.attribution, second.attribution])),
    cells: [...cells.values()].sort((a, b) => b.claims - a.claims),
  };
}

function agreement(pairs: readonly (readonly [string, string])[]): Agreement | null {
  const classes = [...new Set(pairs.flat())];
  const place = new Map(classes.map((name, index) => [name, index]));
  const table = classes.map(() => classes.map(() => 0));
  for (const [first, second] of pairs) {
    const row = table[place.get(first) ?? 0];
    const column = place.get(second) ?? 0;
    if (row) row[column] = (row[column] ?? 0) + 1;
  }
  return cohenKappa(table, "exact");
}
