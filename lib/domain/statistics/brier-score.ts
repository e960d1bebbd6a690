/** Whether what was forecast happened. */
export type Outcome = 0 | 1;

/** @throws in the name of the method where forecasts and outcomes do not fit together */
export function needForecasts(method: string, probabilities: readonly number[], outcomes: readonly Outcome[]): void {
  if (probabilities.length === 0 || probabilities.length !== outcomes.length) throw new Error(`${method} needs an outcome for each of one or more forecasts`);
  if (!probabilities.every((probability) => probability >= 0 && probability <= 1)) throw new Error(`${method} needs probabilities from 0 to 1`);
}

export interface BrierDecomposition {
  /** Mean squared distance between forecast and outcome: 0 is perfect. */
  brier: number;
  /** How far the share that happened lies from the forecast, over its groups: small is good. */
  reliability: number;
  /** How far the groups differ from the base rate: large is good. */
  resolution: number;
  /** What the base rate alone leaves open; no forecast can change it. */
  uncertainty: number;
  /** Share of the uncertainty taken away, 1 - brier / uncertainty; null where everything or nothing happened. */
  skillScore: number | null;
}

/**
 * Brier score with Murphy's decomposition, brier = reliability - resolution + uncertainty. Groups are the distinct
 * forecasts, so that the identity is exact; with bins two terms within the bins would be missing.
 *
 * Source: G. W. Brier (1950), Monthly Weather Review 78; A. H. Murphy (1973), J. Applied Meteorology 12:595-600, both
 * from memory; checked against R.
 *
 * @example brierDecomposition([0.5, 0.5], [1, 0]) // brier 0.25 = 0 - 0 + 0.25, skill 0
 * @throws without a forecast, or with one outside 0..1
 */
export function brierDecomposition(probabilities: readonly number[], outcomes: readonly Outcome[]): BrierDecomposition {
  needForecasts("brierDecomposition", probabilities, outcomes);
  const count = probabilities.length;
  const groups = new Map<number, { size: number; happened: number }>();
  let squares = 0;
  let happenedInAll = 0;
  probabilities.forEach((probability, place) => {
    const outcome = outcomes[place] ?? 0;
    const group = groups.get(probability) ?? { size: 0, happened: 0 };
    groups.set(probability, { size: group.size + 1, happened: group.happened + outcome });
    squares += (probability - outcome) ** 2;
    happenedInAll += outcome;
  });
  const baseRate = happenedInAll / count;
  let reliability = 0;
  let resolution = 0;
  for (const [probability, { size, happened }] of groups) {
    const share = happened / size;
    reliability += (size / count) * (probability - share) ** 2;
    resolution += (size / count) * (share - baseRate) ** 2;
  }
  const uncertainty = baseRate * (1 - baseRate);
  const brier = squares / count;
  return { brier, reliability, resolution, uncertainty, skillScore: uncertainty === 0 ? null : 1 - brier / uncertainty };
}
