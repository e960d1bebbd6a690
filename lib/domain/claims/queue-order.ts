import { type ClaimStage, QUEUE_STAGES } from "./stages";

/** Ways to order the queue; `risk` is `byRisk`. */
export const QUEUE_SORTS = ["risk", "promised", "newest", "unit", "leader"] as const;
export type QueueSort = (typeof QUEUE_SORTS)[number];

/** Acts after which what the customer wrote waits for nobody: staff reached them, or they ended the complaint themselves. */
export const ANSWERING_ACTS = ["write_message", "ask_for_check", "authorise_return", "decide", "need_no_answer", "clear", "withdraw"] as const;

/** Whether an entry of the audit trail answers what was written up to then; a message does when it is not the customer's own. */
export function isAnswer({ actorKind, action }: { actorKind: string; action: string }): boolean {
  return ANSWERING_ACTS.some((act) => act === action) && !(action === "write_message" && actorKind === "customer");
}

/** What decides a claim's place in the queue. */
export interface PlaceFacts {
  stage: ClaimStage;
  /** The engine must stand still until somebody has answered. */
  stopsEngine: boolean;
  promisedAt: Date;
  /** When staff first answered; the promise is kept from then on. */
  firstAnswerAt: Date | null;
  /** When the customer wrote what nobody has answered yet; of several messages the first. */
  wroteAt: Date | null;
}

/**
 * The order of the queue: engines that must stand still, then claims nobody has answered yet by promised time, then
 * customers who have written since by who has waited longest, then the answered ones by the same. The list itself is
 * sorted by the database in the same order.
 *
 * Example: a claim whose engine must stand still comes before one that is two days late.
 */
export function byRisk(a: PlaceFacts, b: PlaceFacts): number {
  const [one, other] = [place(a), place(b)];
  return Number(other.mustStandStill) - Number(one.mustStandStill) || one.group - other.group || one.since.getTime() - other.since.getTime() || a.promisedAt.getTime() - b.promisedAt.getTime();
}

function place({ stage, stopsEngine, promisedAt, firstAnswerAt, wroteAt }: PlaceFacts): { mustStandStill: boolean; group: number; since: Date } {
  const isOpen = QUEUE_STAGES.some((open) => open === stage);
  const mustStandStill = isOpen && stopsEngine;
  if (isOpen && firstAnswerAt === null) return { mustStandStill, group: 0, since: promisedAt };
  return wroteAt ? { mustStandStill, group: 1, since: wroteAt } : { mustStandStill, group: 2, since: firstAnswerAt ?? promisedAt };
}

/** Nobody has answered by the promised time. */
export function isLate({ firstAnswerAt, promisedAt }: Pick<PlaceFacts, "firstAnswerAt" | "promisedAt">, now: Date): boolean {
  return firstAnswerAt === null && promisedAt < now;
}

/**
 * What a customer's unanswered message adds to the reason, or null. Example: "wrote to us 3 hours ago".
 *
 * @param isContested the claim is in review again because a verdict was taken back
 */
export function wroteInWords({ wroteAt, isContested }: Pick<PlaceFacts, "wroteAt"> & { isContested: boolean }, now: Date): string | null {
  return wroteAt && `${isContested ? "sees the verdict otherwise, wrote" : "wrote to us"} ${span(Math.max(0, now.getTime() - wroteAt.getTime()))} ago`;
}

export const ENDED = "ended";
const WAITING: Partial<Record<ClaimStage, string>> = {
  filed: "not taken up yet",
  in_review: "to be decided",
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
  if (facts.firstAnswerAt !== null) return facts.stage === "in_review" && !facts.wroteAt ? `answered, ${waits}` : waits;
  return due < 0 ? `${span(-due)} late` : `answer due in ${span(due)}`;
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
