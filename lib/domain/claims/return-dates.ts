import type { ReturnState } from "./stages";

const DAY_MS = 86_400_000;

/** Judgement: long enough before the last day to find a box and a post office. */
export const REMIND_DAYS_BEFORE = 5;

/** Judgement: within Europe a parcel that is longer on its way has most likely gone astray. */
export const CARRIAGE_DAYS = 10;

export interface ReturnDates {
  state: ReturnState;
  authorisedAt: Date;
  expiresAt: Date;
  sentAt: Date | null;
  remindedAt: Date | null;
}

/**
 * What the calendar asks for: a reminder before the last day, once, or an end after it. The whole of the last day counts,
 * wherever the customer is, so the end comes a day later. A parcel that is on its way never runs out by itself. Who was
 * given less than twice the time of a reminder gets none.
 *
 * Example: of a return that runs out on the 21st a reminder is due from the 16th and the end from the 22nd.
 */
export function dueOfReturn({ state, authorisedAt, expiresAt, remindedAt }: ReturnDates, now: Date): "reminder" | "end" | null {
  if (state !== "authorised") return null;
  if (now.getTime() > expiresAt.getTime() + DAY_MS) return "end";
  const remindFrom = expiresAt.getTime() - REMIND_DAYS_BEFORE * DAY_MS;
  const isWorthIt = expiresAt.getTime() - authorisedAt.getTime() >= 2 * REMIND_DAYS_BEFORE * DAY_MS;
  return isWorthIt && remindedAt === null && now.getTime() >= remindFrom && now < expiresAt ? "reminder" : null;
}

/**
 * Since how many whole days a unit should have been here: since the last day of its return or, once it has set out, since
 * a parcel usually arrives. Null while nothing is late.
 *
 * Example: set out on the 1st, it is 2 days overdue on the 13th.
 */
export function daysOverdue({ state, expiresAt, sentAt }: Pick<ReturnDates, "state" | "expiresAt" | "sentAt">, now: Date): number | null {
  if (state !== "authorised" && state !== "in_carriage") return null;
  const dueAt = state === "in_carriage" && sentAt ? sentAt.getTime() + CARRIAGE_DAYS * DAY_MS : expiresAt.getTime();
  const days = Math.floor((now.getTime() - dueAt) / DAY_MS);
  return now.getTime() > dueAt ? days : null;
}
