import type { Beta } from "./beta-update";

/** Successes among trials; neither need be whole. */
export interface Counts {
  successes: number;
  trials: number;
}

/**
 * Partial pooling: the chance in a group, drawn towards the mean of what the group belongs to as if `strength` trials
 * had been seen there with that mean. Few trials move little, many move much.
 *
 *     mean = (strength * mean before + successes) / (strength + trials)
 *
 * Chained for all, a kit and a kit on one vehicle: the mean of each level is the mean before of the next, and a kit's
 * counts include its vehicles'.
 *
 * Source: empirical Bayes for the binomial with fixed strength; checked against R. Example: a mean before of 0.1 with a
 * strength of 20 and 18 of 90 give 20 / 110 = 0.182; that with a strength of 10 and 3 of 6 gives 4.82 / 16 = 0.301.
 *
 * @throws where the mean before lies not within 0 and 1 or the strength is not above 0
 */
export function pooledBeta(meanBefore: number, strength: number, { successes, trials }: Counts): Beta {
  if (!(meanBefore > 0 && meanBefore < 1 && strength > 0)) throw new Error("pooledBeta needs a mean before within 0 and 1 and a strength above 0");
  return { alpha: strength * meanBefore + successes, beta: strength * (1 - meanBefore) + trials - successes };
}
