/** The most that one proposal moves the odds of a figure, either way (judgement): a month of odd verdicts stays one step. */
export const MOST_ODDS_FACTOR = 3;

/** A learned chance stays this far from never and always: no count of verdicts makes anything impossible. */
const LEAST_CHANCE = 1e-5;

const oddsOf = (chance: number) => chance / (1 - chance);

/**
 * A chance moved towards what was learned, but by no more than a factor of three in its odds.
 *
 * Example: 0.5 towards 0.9 stops at odds of 3, that is 0.75; 0.002 towards 0.004 arrives.
 */
export function boundedMove(before: number, learned: number): number {
  const start = oddsOf(Math.min(1 - LEAST_CHANCE, Math.max(LEAST_CHANCE, before)));
  const odds = Math.min(start * MOST_ODDS_FACTOR, Math.max(start / MOST_ODDS_FACTOR, oddsOf(Math.min(1 - LEAST_CHANCE, Math.max(LEAST_CHANCE, learned)))));
  return odds / (1 + odds);
}
