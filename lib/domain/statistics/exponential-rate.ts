import { type Interval, poissonInterval } from "./poisson-interval";

/**
 * Mean time between failures where failures come at random, with the watch ended at a time set beforehand.
 *
 * @example meanTimeBetweenFailures(10, 7771, 0.9) // 777.1, 458 to 1432
 * @returns null without a failure: see `boundWithoutFailure`
 */
export function meanTimeBetweenFailures(failures: number, totalTime: number, confidence: number): Interval | null {
  if (failures === 0) return null;
  const { estimate, lower, upper } = poissonInterval(failures, totalTime, confidence);
  return { estimate: 1 / estimate, lower: 1 / upper, upper: 1 / lower };
}

/**
 * What can be said where nothing has failed: one-sided limits of the rate and of the mean time.
 *
 * @example boundWithoutFailure(1240, 0.95) // rate below 0.00242, mean time above 414
 */
export function boundWithoutFailure(totalTime: number, confidence: number): { rateUpper: number; meanTimeLower: number } {
  if (!(totalTime > 0)) throw new Error("boundWithoutFailure needs a time above 0");
  const events = -Math.log(1 - confidence);
  return { rateUpper: events / totalTime, meanTimeLower: totalTime / events };
}
