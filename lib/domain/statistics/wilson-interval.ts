import chisquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import type { Interval } from "./poisson-interval";

/**
 * A share with its score interval, which stays within 0 and 1 and is honest for few trials: what part of the decided
 * claims had this cause.
 *
 * Source: E. B. Wilson, "Probable inference, the law of succession, and statistical inference", JASA 22 (1927), without
 * continuity correction (from memory; checked against R's prop.test).
 *
 * @param successes a whole number from 0 to `trials`
 * @param trials a whole number from 1
 * @param confidence between 0 and 1
 * @example wilsonInterval(81, 263, 0.95) // { estimate: 0.308..., lower: 0.255..., upper: 0.366... }
 * @throws when an argument is out of its range
 */
export function wilsonInterval(successes: number, trials: number, confidence: number): Interval {
  if (!Number.isInteger(trials) || trials < 1) throw new Error("wilsonInterval needs at least one trial");
  if (!Number.isInteger(successes) || successes < 0 || successes > trials) throw new Error("wilsonInterval needs successes from 0 to the trials");
  if (!(confidence > 0 && confidence < 1)) throw new Error("wilsonInterval needs a confidence between 0 and 1");
  const share = successes / trials;
  // The square of a normal deviate is chi-square with one degree of freedom.
  const deviateSquared = chisquareQuantile(confidence, 1);
  const middle = (share + deviateSquared / (2 * trials)) / (1 + deviateSquared / trials);
  const reach = Math.sqrt((share * (1 - share) + deviateSquared / (4 * trials)) * (deviateSquared / trials)) / (1 + deviateSquared / trials);
  return {
    estimate: share,
    lower: successes === 0 ? 0 : middle - reach,
    upper: successes === trials ? 1 : middle + reach,
  };
}
