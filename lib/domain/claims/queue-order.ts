import type { ClaimStage } from "./stages";

/** Ways to order the queue; `risk` is `byRisk`. */
export const QUEUE_SORTS = ["risk", "promised", "newest", "unit", "leader"] as const;
export type QueueSort = (typeof QUEUE_SORTS)[number];

/** What decides a claim's place in the queue. */
export interface PlaceFacts {
  stage: ClaimStage;
  /** The engine must stand still until somebody has answered. */
  stopsEngine: boolean;
  promisedAt: Date;
  /** When staff first answered; the promise is kept from then on. */
  firstAnswerAt: Date | null;
}

/**
 * The order of the queue: engines that must stand still, then claims nobody has answered yet by promised time, then
 * the answered ones by who has waited longest. The list itself is sorted by the database in the same order.
 *
 * Example: a claim whose engine must stand still comes before one that is two days late.
 */
export function byRisk(a: PlaceFacts, b: PlaceFacts): number {
  return (
    Number(b.stopsEngine) - Number(a.stopsEngine) ||
    Number(a.firstAnswerAt !== null) - Number(b.firstAnswerAt !== null) ||
    (a.firstAnswerAt?.getTime() ?? 0) - (b.firstAnswerAt?.getTime() ?? 0) ||
    a.promisedAt.getTime() - b.promisedAt.getTime()
  );
}

/** Nobody has answered by the promised time. */
export function isLate({ firstAnswerAt, promisedAt }: Pick<PlaceFacts, "firstAnswerAt" | "promisedAt">, now: Date): boolean {
  return firstAnswerAt === null && promisedAt < now;
}

export const ENDED = "ended";
const WAITING: Partial<Record<ClaimStage, string>> = {
  filed: "not taken up yet",
  in_review: "answered, to be decided",
  awaiting_checks: "waits for the customer",
  awaiting_the_unit: "waits for the unit",
};

/**
 * Why a claim stands where it does, in words; beside it, engines that must stand still are named.
 *
 * Example: "2 days late", "answer due in 3 hours", "waits for the customer".
 */
export function reasonForPlace(facts: PlaceFacts, now: Date): string {
  const waits = WAITING[facts.stage];
  if (waits === undefined) return ENDED;
  const due = facts.promisedAt.getTime() - now.getTime();
  return facts.firstAnswerAt !== null ? waits : due < 0 ? `${span(-due)} late` : `answer due in ${span(due)}`;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** A length of time in its largest whole unit. */
function span(milliseconds: number): string {
  const [unit, name] = milliseconds >= 2 * DAY ? [DAY, "day"] : milliseconds >= HOUR ? [HOUR, "hour"] : [MINUTE, "minute"];
  const count = Math.floor(milliseconds / Number(unit));
  return `${count} ${name}${count === 1 ? "" : "s"}`;
}
