import "server-only";
import { RateLimiterPostgres, RateLimiterRes } from "rate-limiter-flexible";
import { connectionPool } from "./client";

/** How often one caller may do a thing: tries per window of seconds. */
const LIMITS = {
  "sign-in": { points: 10, duration: 15 * 60 },
  /** Many people may share one address. */
  "sign-in-address": { points: 60, duration: 15 * 60 },
  lookup: { points: 20, duration: 10 * 60 },
  filing: { points: 20, duration: 60 * 60 },
  upload: { points: 60, duration: 10 * 60 },
  link: { points: 5, duration: 15 * 60 },
} as const;
export type LimitedThing = keyof typeof LIMITS;

/**
 * Counts one try of `thing` by `caller` in PostgreSQL, so that several app processes share the count.
 *
 * @returns false when the caller must wait
 */
export async function countTry(thing: LimitedThing, caller: string): Promise<boolean> {
  try {
    await limiterOf(thing).consume(caller);
    return true;
  } catch (refusal) {
    if (refusal instanceof RateLimiterRes) return false;
    throw refusal;
  }
}

/** Forgets the tries of a caller who has shown that they may. */
export async function forgetTries(thing: LimitedThing, caller: string): Promise<void> {
  await limiterOf(thing).delete(caller);
}

function limiterOf(thing: LimitedThing): RateLimiterPostgres {
  return new RateLimiterPostgres({
    storeClient: connectionPool(),
    storeType: "pool",
    tableName: "rate_limit",
    tableCreated: true,
    clearExpiredByTimeout: false,
    keyPrefix: thing,
    ...LIMITS[thing],
  });
}
