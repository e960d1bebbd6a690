import type { CauseCode } from "./knowledge";
import type { RankedCause, Ranking } from "./ranking";

/** How one claim fares under two editions. */
export interface ClaimComparison {
  /** Null where the evidence cannot happen under that edition. */
  before: RankedCause | null;
  after: RankedCause | null;
  isLedOtherwise: boolean;
  /** How far the probability of a defective unit moves; 0 where either edition has none. */
  unitShift: number;
}

/** From here on a shift of the probability of a defective unit is called one (judgement). */
export const NOTABLE_SHIFT = 0.05;

/** What a dry run has found over all claims: plain data, stored with the trial. */
export interface DryRunResult {
  claims: number;
  otherLeader: number;
  /** From one leader to another, the most frequent first; null where the evidence cannot happen. */
  moves: readonly { from: CauseCode | null; to: CauseCode | null; claims: number }[];
  contradictions: { before: number; after: number };
  /** Probability of a defective unit: its mean over the claims, and how many it rises or falls for by `NOTABLE_SHIFT` or more. */
  unit: { meanBefore: number; meanAfter: number; raised: number; lowered: number };
  /** Claims whose leader lies with the unit, so that a remedy for the unit is what the ranking speaks for. */
  unitRemedies: { before: number; after: number; came: number; went: number };
  /** Claims with a verdict that stands: how often its cause leads. */
  decided: { claims: number; ledBefore: number; ledAfter: number; gained: number; lost: number };
}

const leaderOf = (ranking: Ranking) => (ranking.outcome === "ranked" ? (ranking.causes[0] ?? null) : null);
const unitOf = (ranking: Ranking) => (ranking.outcome === "ranked" ? ranking.unitDefective : null);

/** One claim ranked with two editions, compared. */
export function compareRankings(before: Ranking, after: Ranking): ClaimComparison {
  const [then, now] = [leaderOf(before), leaderOf(after)];
  const [unitThen, unitNow] = [unitOf(before), unitOf(after)];
  return { before: then, after: now, isLedOtherwise: then?.code !== now?.code, unitShift: unitThen === null || unitNow === null ? 0 : unitNow - unitThen };
}

export interface DryRunTally {
  /** @param verdict primary cause of the verdict that stands, or null */
  add(before: Ranking, after: Ranking, verdict: CauseCode | null): ClaimComparison;
  result(): DryRunResult;
}

/**
 * Tally of a dry run: takes claims one by one, so that its memory does not grow with their number.
 *
 * Example: a claim led by C01 before and by C03 after, with the verdict C03, counts as led otherwise and as gained.
 */
export function dryRunTally(): DryRunTally {
  let [claims, otherLeader, ranked, sumBefore, sumAfter, raised, lowered] = [0, 0, 0, 0, 0, 0, 0];
  const moves = new Map<string, { from: CauseCode | null; to: CauseCode | null; claims: number }>();
  const contradictions = { before: 0, after: 0 };
  const unitRemedies = { before: 0, after: 0, came: 0, went: 0 };
  const decided = { claims: 0, ledBefore: 0, ledAfter: 0, gained: 0, lost: 0 };

  const countUnit = (before: Ranking, after: Ranking, shift: number) => {
    const [then, now] = [unitOf(before), unitOf(after)];
    if (then === null || now === null) return;
    ranked += 1;
    sumBefore += then;
    sumAfter += now;
    if (shift >= NOTABLE_SHIFT) raised += 1;
    if (shift <= -NOTABLE_SHIFT) lowered += 1;
  };
  /** Counts a claim of which something holds before, after or both. */
  const countBoth = (holdsBefore: boolean, holdsAfter: boolean): [before: number, after: number, came: number, went: number] => [
    Number(holdsBefore),
    Number(holdsAfter),
    Number(holdsAfter && !holdsBefore),
    Number(holdsBefore && !holdsAfter),
  ];

  return {
    add(rankedBefore, rankedAfter, verdict) {
      const comparison = compareRankings(rankedBefore, rankedAfter);
      const { before, after, isLedOtherwise, unitShift } = comparison;
      claims += 1;
      if (!before) contradictions.before += 1;
      if (!after) contradictions.after += 1;
      if (isLedOtherwise) {
        otherLeader += 1;
        const [from, to] = [before?.code ?? null, after?.code ?? null];
        const move = moves.get(`${from} ${to}`) ?? { from, to, claims: 0 };
        move.claims += 1;
        moves.set(`${from} ${to}`, move);
      }
      countUnit(rankedBefore, rankedAfter, unitShift);
      const unit = countBoth(before?.attribution === "unit", after?.attribution === "unit");
      unitRemedies.before += unit[0];
      unitRemedies.after += unit[1];
      unitRemedies.came += unit[2];
      unitRemedies.went += unit[3];
      if (verdict !== null) {
        const led = countBoth(before?.code === verdict, after?.code === verdict);
        decided.claims += 1;
        decided.ledBefore += led[0];
        decided.ledAfter += led[1];
        decided.gained += led[2];
        decided.lost += led[3];
      }
      return comparison;
    },
    result: () => ({
      claims,
      otherLeader,
      moves: [...moves.values()].sort((a, b) => b.claims - a.claims),
      contradictions,
      unit: { meanBefore: ranked && sumBefore / ranked, meanAfter: ranked && sumAfter / ranked, raised, lowered },
      unitRemedies,
      decided,
    }),
  };
}
