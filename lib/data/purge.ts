import "server-only";
import { inTransaction } from "./client";
import { deleteMailBefore } from "./outgoing-mail";

/** Mail is kept as long as a browser may follow the claim it is about. */
const MAIL_DAYS = 90;

/**
 * Removes what has run out: drafts whose last key has expired, spent keys, ended staff sessions, old mail and rate counts.
 *
 * @returns how many of each, and the keys of the photos that were the drafts'
 */
export function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number; mails: number; storageKeys: string[] }> {
  return inTransaction(async (db) => {
    const expired = { stage: "draft", keys: { none: { expiresAt: { gt: now } } }, createdAt: { lt: now } } as const;
    const photos = await db.photo.findMany({ where: { claim: expired }, select: { storageKey: true } });
    const drafts = await db.claim.deleteMany({ where: expired });
    const keys = await db.claimKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const sessions = await db.staffSession.deleteMany({ where: { expiresAt: { lt: now } } });
    const personKeys = await db.personKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const mails = await deleteMailBefore(db, new Date(now.getTime() - MAIL_DAYS * 86_400_000));
    await db.rateLimit.deleteMany({ where: { expire: { lt: now.getTime() } } });
    return { drafts: drafts.count, keys: keys.count + personKeys.count, sessions: sessions.count, mails, storageKeys: photos.map(({ storageKey }) => storageKey) };
  });
}
