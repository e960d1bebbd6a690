import { type ClaimStage, QUEUE_STAGES } from "./stages";

/** Ways to order the queue; `risk` is `byRisk`. */
export const QUEUE_SORTS = ["risk", "promised", "value", "newest", "unit", "leader"] as const;
export type QueueSort = (typeof QUEUE_SORTS)[number];

/** What can be asked of the queue beside stage, kit and hand. */
export const QUEUE_MARKS = ["late", "wrote", "still", "back", "lapsing", "unreached", "second_look"] as const;
export type QueueMark = (typeof QUEUE_MARKS)[number];

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
  /** When the claim last came to the desk. */
  deskSince: Date | null;
  /** What the next look is expected to save beyond its price, in units of the currency. */
  lookValue: number | null;
}

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** What is due within so long is worked by time, whatever looking at it is worth (judgement). */
export const PRESSING_HOURS = 4;
/** Nobody was promised an hour for these: a message is due after a day, a claim that came back after three (judgement). */
export const MESSAGE_DUE_HOURS = 24;
export const BACK_AT_DESK_DUE_HOURS = 72;

const isOneOf = (stage: ClaimStage, stages: readonly ClaimStage[]) => stages.includes(stage);
/** It is staff's turn, and not a customer's or a carrier's. */
export const DESK_STAGES = ["filed", "in_review"] as const satisfies readonly ClaimStage[];

/** Whether a move brings a claim to the desk, and does not only pass it on there. */
export function comesToDesk(from: ClaimStage, to: ClaimStage): boolean {
  return isOneOf(to, DESK_STAGES) && !isOneOf(from, DESK_STAGES);
}

/** When staff owe the next act, or null while they owe none: the promised time until the first answer. */
export function dueAt({ stage, promisedAt, firstAnswerAt, wroteAt, deskSince }: Omit<PlaceFacts, "stopsEngine" | "lookValue">): Date | null {
  if (isOneOf(stage, QUEUE_STAGES) && firstAnswerAt === null) return promisedAt;
  if (wroteAt) return new Date(wroteAt.getTime() + MESSAGE_DUE_HOURS * HOUR);
  return isOneOf(stage, DESK_STAGES) && deskSince ? new Date(deskSince.getTime() + BACK_AT_DESK_DUE_HOURS * HOUR) : null;
}

/**
 * The order of the queue: engines that must stand still; then what is late or due within four hours, by time; then what
 * else lies with the desk, by what looking now is expected to save; then what waits for others, by who has waited
 * longest. The list itself is sorted by the database in the same order.
 *
 * Example: a claim due tomorrow whose next check is expected to save 60 comes before one due today at five, seen at
 * noon, that saves 5, and after one that is due at three.
 */
export function byRisk(a: PlaceFacts, b: PlaceFacts, now: Date): number {
  const [one, other] = [place(a, now), place(b, now)];
  return Number(other.mustStandStill) - Number(one.mustStandStill) || one.band - other.band || other.value - one.value || inTime(one.due, other.due) || inTime(a.firstAnswerAt, b.firstAnswerAt) || inTime(a.promisedAt, b.promisedAt);
}

function place(facts: PlaceFacts, now: Date): { mustStandStill: boolean; band: number; value: number; due: Date | null } {
  const due = dueAt(facts);
  const mustStandStill = isOneOf(facts.stage, QUEUE_STAGES) && facts.stopsEngine;
  if (due && due.getTime() <= now.getTime() + PRESSING_HOURS * HOUR) return { mustStandStill, band: 0, value: 0, due };
  const isWithTheDesk = due !== null || isOneOf(facts.stage, DESK_STAGES);
  return isWithTheDesk ? { mustStandStill, band: 1, value: facts.lookValue ?? 0, due } : { mustStandStill, band: 2, value: 0, due };
}

/** The earlier first; what has no time last. */
function inTime(a: Date | null, b: Date | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  return a.getTime() - b.getTime();
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
  if (facts.firstAnswerAt === null) return due < 0 ? `${span(-due)} late` : `answer due in ${span(due)}`;
  if (facts.stage !== "in_review" || facts.wroteAt) return waits;
  return facts.deskSince ? `back at the desk for ${span(Math.max(0, now.getTime() - facts.deskSince.getTime()))}, ${waits}` : `answered, ${waits}`;
}

/** Why staff have to call, or null where mail reaches the customer. */
export function callInWords({ email, hasBounced }: { email: string | null; hasBounced: boolean }): string | null {
  if (email === null) return "no e-mail address: call";
  return hasBounced ? "mail did not reach the customer: call" : null;
}

/** What one look saves counts from here on, in units of the currency: less is not worth a word (judgement). */
const WORTH_A_WORD = 1;

/**
 * What looking now is expected to save, in words, while it is staff's turn; else null.
 *
 * @param money writes a sum. Example: "one more look should save about €38", "ready to be decided".
 */
export function worthInWords({ stage, wroteAt, lookValue }: Pick<PlaceFacts, "stage" | "wroteAt" | "lookValue">, money: (sum: number) => string): string | null {
  if (lookValue === null || !(isOneOf(stage, DESK_STAGES) || (wroteAt && isOneOf(stage, QUEUE_STAGES)))) return null;
  return lookValue >= WORTH_A_WORD ? `one more look should save about ${money(lookValue)}` : "no look pays any more: ready to be decided";
}

/** A length of time in its largest whole unit. */
function span(milliseconds: number): string {
  const [unit, name] = milliseconds >= 2 * DAY ? [DAY, "day"] : milliseconds >= HOUR ? [HOUR, "hour"] : [MINUTE, "minute"];
  const count = Math.floor(milliseconds / Number(unit));
  return `${count} ${name}${count === 1 ? "" : "s"}`;
}
