import "server-only";
import { inTransaction } from "./client";

/**
 * Removes what has run out: drafts whose last key has expired, spent keys, ended staff sessions, old rate counts.
 *
 * @returns how many of each, and the keys of the photos that were the drafts'
 */
export function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number; storageKeys: string[] }> {
  return inTransaction(async (db) => {
    const expired = { stage: "draft", keys: { none: { expiresAt: { gt: now } } }, createdAt: { lt: now } } as const;
    const photos = await db.photo.findMany({ where: { claim: expired }, select: { storageKey: true } });
    const drafts = await db.claim.deleteMany({ where: expired });
    const keys = await db.claimKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const sessions = await db.staffSession.deleteMany({ where: { expiresAt: { lt: now } } });
    await db.rateLimit.deleteMany({ where: { expire: { lt: now.getTime() } } });
    return { drafts: drafts.count, keys: keys.count, sessions: sessions.count, storageKeys: photos.map(({ storageKey }) => storageKey) };
  });
}
