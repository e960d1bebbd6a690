import { chanceShort } from "./chance-short";
import { type Estimate, shownEstimate } from "./estimate";

/** What was found against what it is held against, in SI, with the probability of falling short. */
export interface Margin {
  /** What was found or follows from it. */
  value: number;
  /** One standard deviation of it. */
  spread: number;
  limit: number;
  /** What is left: below 0 it falls short at the middle of what is known. */
  margin: number;
  fallingShort: number;
  /** Where the relation comes from. */
  source: string;
}

/**
 * Margin of what is available over what is needed. Either of the two may be the one that was measured; the other one is
 * its limit.
 *
 * Example: a crankcase at 60 mm of oil, good to 5, against a limit of 75 mm, good to 15, leaves 15 mm and falls short
 * with a probability of 0.171.
 */
export function marginOf(available: Estimate, needed: Estimate, measured: "available" | "needed", source: string): Margin {
  const { value, spread } = shownEstimate(measured === "available" ? available : needed);
  const { value: limit } = shownEstimate(measured === "available" ? needed : available);
  return {
    value,
    spread,
    limit,
    margin: measured === "available" ? value - limit : limit - value,
    fallingShort: chanceShort(available, needed),
    source,
  };
}
