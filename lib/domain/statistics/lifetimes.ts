/** One unit under watch: how long, and whether it ended with the event or with the end of the watch. */
export interface Lifetime {
  /** From 0, in any unit of time. */
  time: number;
  failed: boolean;
}

export interface AtRisk {
  time: number;
  atRisk: number;
  failures: number;
}

/** Times with failures, in order, with how many units were still watched just before: who left at that time was. */
export function timesOfFailure(lifetimes: readonly Lifetime[]): readonly AtRisk[] {
  const sorted = lifetimes.toSorted((a, b) => a.time - b.time);
  const steps: AtRisk[] = [];
  sorted.forEach(({ time, failed }, index) => {
    if (sorted[index - 1]?.time !== time) steps.push({ time, atRisk: sorted.length - index, failures: 0 });
    const step = steps.at(-1);
    if (step && failed) step.failures += 1;
  });
  return steps.filter(({ failures }) => failures > 0);
}
