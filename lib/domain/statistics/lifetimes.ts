/** One unit under watch, or several alike: how long, and whether it ended with the event or with the end of the watch. */
export interface Lifetime {
  /** From 0, in any unit of time. */
  time: number;
  failed: boolean;
  /** How many units; 1 where it is left out. Where units are shared out it need not be whole. */
  units?: number;
}

export interface AtRisk {
  time: number;
  atRisk: number;
  failures: number;
}

export function unitsOf({ units = 1 }: Lifetime): number {
  return units;
}

/** Times with failures, in order, with how many units were still watched just before: who left at that time was. */
export function timesOfFailure(lifetimes: readonly Lifetime[]): readonly AtRisk[] {
  const sorted = lifetimes.toSorted((a, b) => b.time - a.time);
  const steps: AtRisk[] = [];
  let watched = 0;
  sorted.forEach((lifetime, index) => {
    watched += unitsOf(lifetime);
    if (sorted[index - 1]?.time !== lifetime.time) steps.push({ time: lifetime.time, atRisk: 0, failures: 0 });
    const step = steps.at(-1);
    if (!step) return;
    step.atRisk = watched;
    if (lifetime.failed) step.failures += unitsOf(lifetime);
  });
  return steps.filter(({ failures }) => failures > 0).reverse();
}
