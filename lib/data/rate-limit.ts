import "server-only";
import { RateLimiterPostgres, RateLimiterRes } from "rate-limiter-flexible";
import { connectionPool } from "./client";

/** How often one caller may do a thing: tries per window of seconds. */
const LIMITS = {
  /** As one person, from one address. */
  "sign-in": { points: 10, duration: 15 * 60 },
  /** As one person, where callers have no address: a stranger's tries must not shut out the person, nor go on for good. */
  "sign-in-shared": { points: 100, duration: 15 * 60 },
  /** Many people may share one address. */
  "sign-in-address": { points: 60, duration: 15 * 60 },
  lookup: { points: 20, duration: 10 * 60 },
  draft: { points: 20, duration: 60 * 60 },
  filing: { points: 20, duration: 60 * 60 },
  upload: { points: 60, duration: 10 * 60 },
  link: { points: 5, duration: 15 * 60 },
} as const;
export type LimitedThing = keyof typeof LIMITS;

/** The caller where no trusted proxy tells addresses apart. */
export const SHARED_CALLER = "direct";

/** Callers without an address of their own share one count, so it holds more. */
const SHARED_TIMES = 50;

/**
 * Counts one try of `thing` by `caller` in PostgreSQL, so that several app processes share the count.
 *
 * @returns false when the caller must wait
 */
export async function countTry(thing: LimitedThing, caller: string): Promise<boolean> {
  try {
    await limiterOf(thing, caller).consume(caller);
    return true;
  } catch (refusal) {
    if (refusal instanceof RateLimiterRes) return false;
    throw refusal;
  }
}

/** Forgets the tries of a caller who has shown that they may. */
export async function forgetTries(thing: LimitedThing, caller: string): Promise<void> {
  await limiterOf(thing, caller).delete(caller);
}

function limiterOf(thing: LimitedThing, caller: string): RateLimiterPostgres {
  const { points, duration } = LIMITS[thing];
  return new RateLimiterPostgres({
    storeClient: connectionPool(),
    storeType: "pool",
    tableName: "rate_limit",
    tableCreated: true,
    clearExpiredByTimeout: false,
    keyPrefix: thing,
    duration,
    points: points * (caller === SHARED_CALLER ? SHARED_TIMES : 1),
  });
}
