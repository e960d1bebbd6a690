import { type Conflict, conflictsIn } from "./conflicts";
import { type Contradiction, contradictionIn } from "./contradiction";
import type { ClaimContext } from "./experience";
import type { CauseCode, Edition, FindingCode } from "./knowledge";
import { type LeaderChange, smallestLeaderChange } from "./leader-change";
import type { Observation } from "./observation";
import type { NextCheck, Ranking } from "./ranking";

/** What is doubtful about the observations themselves. */
export interface Doubts {
  conflicts: readonly Conflict[];
  /** Null where what was found is possible. */
  contradiction: Contradiction | null;
}

/** What a ranking hangs on. It follows from the observations and the edition that are kept with the ranking. */
export interface Explanation extends Doubts {
  /** Null where one or two other answers would change nothing, or in a contradiction. */
  change: LeaderChange | null;
}

/** Doubts about what was found: its conflicts, or the contradiction that leaves nothing to conflict with. */
export function doubtsAbout(observations: readonly Observation[], edition: Edition, context: ClaimContext): Doubts {
  const contradiction = contradictionIn(observations, edition, context);
  return { contradiction, conflicts: contradiction ? [] : conflictsIn(observations, edition, context) };
}

/** The explanation of a claim's ranking: made anew from what it was ranked by, the same each time. */
export function explainRanking(observations: readonly Observation[], edition: Edition, context: ClaimContext): Explanation {
  return { ...doubtsAbout(observations, edition, context), change: smallestLeaderChange(observations, edition, context) };
}

/** A finding nobody has looked at whose answer could change the leader. */
export interface OpenFinding {
  finding: FindingCode;
  /** Who leads then, and how probable that answer is; the most probable of several. */
  leader: CauseCode;
  probability: number;
}

/**
 * Open findings: checks of which an answer would change the leader, the most probable change first.
 *
 * Example: a turbine that is wet and nothing else known is led by the run of the drain; a drain that is seen kinked
 * would change that, and so that look is open.
 */
export function openFindings(ranking: Ranking, checks: readonly NextCheck[]): OpenFinding[] {
  const ledNow = ranking.outcome === "ranked" ? ranking.causes[0]?.code : undefined;
  if (ledNow === undefined) return [];
  return checks
    .flatMap(({ finding, outcomes }): OpenFinding[] => {
      const changes = outcomes.flatMap(({ probability, known: { likeliest } }) => (likeliest !== null && likeliest !== ledNow ? [{ finding, leader: likeliest, probability }] : []));
      return changes.sort((a, b) => b.probability - a.probability).slice(0, 1);
    })
    .sort((a, b) => b.probability - a.probability);
}
