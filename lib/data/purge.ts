import "server-only";
import { inTransaction } from "./client";

/** Removes what has run out: drafts whose last key has expired, spent keys, ended staff sessions, old rate counts. */
export function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number }> {
  return inTransaction(async (db) => {
    const drafts = await db.claim.deleteMany({ where: { stage: "draft", keys: { none: { expiresAt: { gt: now } } }, createdAt: { lt: now } } });
    const keys = await db.claimKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const sessions = await db.staffSession.deleteMany({ where: { expiresAt: { lt: now } } });
    await db.rateLimit.deleteMany({ where: { expire: { lt: now.getTime() } } });
    return { drafts: drafts.count, keys: keys.count, sessions: sessions.count };
  });
}
