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
