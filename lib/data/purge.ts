import "server-only";
import { inTransaction } from "./client";
import { deleteMailBefore } from "./outgoing-mail";
import { deleteUploads } from "./photo-uploads";

/** Mail is kept as long as a browser may follow the claim it is about. */
const MAIL_DAYS = 90;
/** Who goes on with a photo does so within days; the device still has it and begins anew after that. */
const UPLOAD_DAYS = 3;

/**
 * Removes what has run out: drafts whose last key has expired, spent keys, ended staff sessions, old mail and rate counts.
 *
 * @returns how many of each, the keys of the photos that were the drafts', and those of pieces that never became a photo
 */
export function purgeExpired(now: Date): Promise<{ drafts: number; keys: number; sessions: number; mails: number; storageKeys: string[]; pieceKeys: string[] }> {
  return inTransaction(async (db) => {
    const expired = { stage: "draft", keys: { none: { expiresAt: { gt: now } } }, createdAt: { lt: now } } as const;
    const photos = await db.photo.findMany({ where: { claim: expired }, select: { storageKey: true } });
    const ending = await db.claim.findMany({ where: expired, select: { id: true } });
    const pieceKeys = [
      ...(await deleteUploads(db, { claimId: { in: ending.map(({ id }) => id) } })),
      ...(await deleteUploads(db, { createdAt: { lt: new Date(now.getTime() - UPLOAD_DAYS * 86_400_000) } })),
    ];
    const drafts = await db.claim.deleteMany({ where: expired });
    const keys = await db.claimKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const sessions = await db.staffSession.deleteMany({ where: { expiresAt: { lt: now } } });
    const personKeys = await db.personKey.deleteMany({ where: { expiresAt: { lt: now } } });
    const mails = await deleteMailBefore(db, new Date(now.getTime() - MAIL_DAYS * 86_400_000));
    await db.rateLimit.deleteMany({ where: { expire: { lt: now.getTime() } } });
    return { drafts: drafts.count, keys: keys.count + personKeys.count, sessions: sessions.count, mails, storageKeys: photos.map(({ storageKey }) => storageKey), pieceKeys };
  });
}
