const DAY = 86_400_000;

/** Days without an answer until each step; the seller's settings. */
export interface ReminderDays {
  firstReminderDays: number;
  secondReminderDays: number;
  lapseNoticeDays: number;
  lapseDays: number;
}

export interface QuietFacts {
  /** When the customer was asked last, or last told anything: from then on they are quiet. */
  quietSince: Date;
  /** Steps taken so far (0 to 3), and from when their days are counted. */
  steps: number;
  countedFrom: Date | null;
  /** The day named in the notice, once it was given. */
  lapsesAt: Date | null;
}

export type QuietStep =
  | { do: "nothing" }
  | { do: "remind" | "give notice"; step: 1 | 2 | 3; countFrom: Date; lapsesAt: Date | null }
  | { do: "lapse" };

/**
 * What is due of checks that nobody answers: two reminders, then a notice that names a day, and on that day the end. Any
 * word of the customer, or another check, starts it anew. A step that is taken late, because nothing ran, moves all that
 * follow: nobody is ever reminded twice in a day, and between notice and end there is always the whole time.
 *
 * Source: judgement; the notice before an end is what fairness asks for (ISO 10002, from memory). Example, with 4, 8, 10
 * and 14 days: asked on the 1st, reminded on the 5th and the 9th, told on the 11th that it ends on the 15th.
 */
export function nextQuietStep({ quietSince, steps, countedFrom, lapsesAt }: QuietFacts, days: ReminderDays, now: Date): QuietStep {
  const isAnew = countedFrom === null || quietSince > countedFrom;
  const [taken, from] = isAnew ? [0, quietSince] : [steps, countedFrom];
  if (taken >= 3) return lapsesAt !== null && lapsesAt <= now ? { do: "lapse" } : { do: "nothing" };
  const step = (taken + 1) as 1 | 2 | 3;
  const after = [days.firstReminderDays, days.secondReminderDays, days.lapseNoticeDays][taken] ?? days.lapseNoticeDays;
  if (now.getTime() - from.getTime() < after * DAY) return { do: "nothing" };
  const countFrom = new Date(now.getTime() - after * DAY);
  return step < 3 ? { do: "remind", step, countFrom, lapsesAt: null } : { do: "give notice", step, countFrom, lapsesAt: new Date(countFrom.getTime() + days.lapseDays * DAY) };
}
